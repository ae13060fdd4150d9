import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MEASURES, showsHere, type StudyTask } from '../../../packages/sim-core/src/experiments/index.js';
import { simulate } from '../../../packages/sim-core/src/model/index.js';
import { mendFirst, Study } from '../../../packages/sim-core/src/studies/index.js';
import { exampleLoop } from '../../docs/exampleLoop.js';
import { randomTable } from '../../laws/randomTables.js';
import { luck, made } from './made.js';

describe('mending first', () => {
  const GAINS = [9, 7, 5, 0.4, 0.3, 0.2, 0.1, 0, 0, 0];
  const spec = {
    ...exampleLoop,
    modules: GAINS.map((_, i) => ({ ...exampleLoop.modules[0]!, id: `m${i}` })),
    supply: { kind: 'charge' as const, placed: GAINS.map(() => 1) },
  };
  const value = ({ spec: { modules }, replication }: StudyTask): number =>
    40 +
    10 * luck(replication, 'common') +
    modules.reduce(
      (sum, { stops }, i) =>
        stops.length > 0 ? sum : sum - (GAINS[i] ?? 0) + 2 * (luck(replication, `own ${i}`) - 0.5),
      0,
    );

  it('finds the modules whose stops cost most, in their order, and drops the others early', async () => {
    const source = made(value);
    const study = new Study({ seed: 1, source });
    const { modules, now } = await mendFirst(study, spec, { replications: 64 });
    expect(modules.slice(0, 3).map(({ id }) => id)).toEqual(['m0', 'm1', 'm2']);
    for (const [i, { gain }] of modules.slice(0, 3).entries()) {
      expect(gain.low ?? NaN).toBeLessThan(GAINS[i] ?? NaN);
      expect(gain.high ?? NaN).toBeGreaterThan(GAINS[i] ?? NaN);
    }
    expect(modules.slice(3).every(({ dropped_after: dropped }) => dropped !== null)).toBe(true);
    expect(now.replications).toBe(64);
    // All of them to the end would be 11 x 64 shows.
    expect(source.shows).toBeLessThan(500);
  });

  it('drops one of the first three in fewer studies than it says', async () => {
    let wrong = 0;
    for (let i = 0; i < 200; i++) {
      const shifted = (task: StudyTask): number =>
        value({ ...task, replication: task.replication + 1000 * i });
      const study = new Study({ seed: 1, source: made(shifted) });
      const { modules } = await mendFirst(study, spec, { replications: 16 });
      if (['m0', 'm1', 'm2'].some((id) => modules.find((one) => one.id === id)?.dropped_after !== null))
        wrong++;
    }
    expect(wrong / 200).toBeLessThanOrEqual(0.05);
  });

  it('drops one of the first three in fewer studies than it says, when the fourth is as good as the third', async () => {
    let wrong = 0;
    for (let i = 0; i < 400; i++) {
      const alike = ({ spec: { modules }, replication }: StudyTask): number =>
        modules.reduce(
          (sum, { stops }, m) =>
            stops.length > 0
              ? sum
              : sum - (m < 3 ? 1.01 : m < 8 ? 1 : 0) + 3 * (luck(replication + 1000 * i, `own ${m}`) - 0.5),
          40,
        );
      const study = new Study({ seed: 1, source: made(alike) });
      const { modules } = await mendFirst(study, spec, { replications: 32 });
      if (['m0', 'm1', 'm2'].some((id) => modules.find((one) => one.id === id)?.dropped_after !== null))
        wrong++;
    }
    expect(wrong / 400).toBeLessThanOrEqual(0.05);
  });

  it('counts on it that a module that did not stop changes nothing by never stopping', () => {
    let met = 0;
    fc.assert(
      fc.property(randomTable, fc.nat(100), (table, replication) => {
        // From the opening on, as all stops must be counted.
        const loop = { ...table, show: { ...table.show, warmUpSeconds: 0 } };
        const result = simulate(loop, { seed: 5, replication });
        for (const [m, { stops }] of loop.modules.entries()) {
          if (stops.length === 0 || (result.modules.stops[m] ?? NaN) > 0) continue;
          met++;
          const modules = loop.modules.map((module, i) => (i === m ? { ...module, stops: [] } : module));
          const mended = simulate({ ...loop, modules }, { seed: 5, replication });
          expect(MEASURES.map(({ read }) => read(mended))).toEqual(MEASURES.map(({ read }) => read(result)));
        }
      }),
      { seed: 1905, numRuns: 800 },
    );
    expect(met).toBeGreaterThan(100);
  });

  it('does not simulate what it knows', async () => {
    const source = showsHere();
    let shows = 0;
    const counting = { ...source, run: (task: StudyTask) => (shows++, source.run(task)) };
    const never = {
      ...exampleLoop,
      modules: exampleLoop.modules.map((module) => ({ ...module, stops: [] })),
    };
    await mendFirst(new Study({ seed: 1, source: counting }), never, { replications: 5 });
    expect(shows).toBe(5);
  });
});
