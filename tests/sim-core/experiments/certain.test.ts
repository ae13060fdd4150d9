import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isCertain, MEASURES } from '../../../packages/sim-core/src/experiments/index.js';
import type { LoopSpec, ModuleSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { simulate } from '../../../packages/sim-core/src/model/index.js';
import { randomTable } from '../../laws/randomTables.js';
import { chain, holds, loop, module, plannedStop, seconds } from '../../build.js';

const plain = (changes: Partial<ModuleSpec> = {}): LoopSpec =>
  chain([module('first', { basket: holds(20), ...changes }), module('last', { basket: holds(20) })], 2);

/** All measures of one show. */
const shown = (spec: LoopSpec, replication: number): number[] => {
  const result = simulate(spec, { seed: 1, replication });
  return MEASURES.map(({ read }) => read(result));
};

const exponential = { family: 'exponential', mean: 1 } as const;

describe('what the scenario alone makes certain', () => {
  it('is everything where nothing is drawn, planned stops and constant clocks included', () => {
    const loops = [
      plain(),
      plain({ stops: [plannedStop([600], 120)] }),
      plain({ stops: [plannedStop([600], 120, { trigger: { kind: 'clock', time: seconds(900) } })] }),
      loop([module('a'), module('b', { leak: 1 })], [5, 5]),
    ];
    for (const spec of loops) {
      expect(MEASURES.every(({ id }) => isCertain(id, spec))).toBe(true);
      // Then shows of any luck are the same, to the last digit.
      expect(shown(spec, 1)).toEqual(shown(spec, 0));
    }
  });

  it.each<[string, Partial<ModuleSpec>]>([
    ['times of cycles', { cycle: exponential }],
    ['times of the way', { travel: exponential }],
    ['balls that are missed', { catch: 0.9 }],
    ['balls that leak', { leak: 0.01 }],
    ['balls that are drawn from a heap', { basket: holds(20, 'mixed') }],
    ['where a motor stands at the opening', { drive: { kind: 'continuous' } }],
    ['when it stops', { stops: [plannedStop([], 60, { trigger: { kind: 'per_ball', probability: 0.01 } })] }],
    [
      'how long it stops',
      { stops: [plannedStop([60], 60, { remedy: { kind: 'itself', time: exponential } })] },
    ],
    ['what falls when it stops', { stops: [plannedStop([60], 60, { drops: 0.5 })] }],
  ])('is not what hangs on %s', (_, changes) => {
    expect(isCertain('throughput_bps', plain(changes))).toBe(false);
    expect(isCertain('spills_per_hour', plain(changes))).toBe(false);
  });

  it('is that what cannot happen does not', () => {
    const spec = loop([module('a', { cycle: exponential }), module('b')], [5, 5]);
    expect(MEASURES.filter(({ id }) => isCertain(id, spec)).map(({ id }) => id)).toEqual([
      'spills_per_hour',
      'spill_hour_share',
      'spill_show_share',
      'stops_per_hour',
      'lost_per_hour',
      'pulls_per_show',
    ]);
  });

  it('is the same in shows of different luck, at any table', () => {
    let met = 0;
    fc.assert(
      fc.property(randomTable, (table) => {
        const certain = MEASURES.map(({ id }) => isCertain(id, table));
        if (!certain.includes(true)) return;
        met++;
        const known = (values: readonly number[]): number[] => values.filter((_, i) => certain[i]);
        expect(known(shown(table, 1))).toEqual(known(shown(table, 0)));
      }),
      { seed: 36, numRuns: 150 },
    );
    expect(met).toBeGreaterThan(50);
  });
});
