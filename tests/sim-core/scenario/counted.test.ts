import { describe, expect, it } from 'vitest';
import { applyChanges, parseScenario, simulate } from '../../../packages/sim-core/src/index.js';
import { COUNTED } from './brokenCounted.js';
import { typed } from '../changes/smallLoop.js';

/** What is left of the counts of the file after changes from the words of a command line. */
function after(...words: readonly string[]): ReturnType<typeof applyChanges> {
  return applyChanges({ text: COUNTED, file: 'counted.yaml' }, typed(...words));
}

const { spec, counted } = parseScenario(COUNTED);
const [lift, wheel, second] = counted ?? [];

describe('what figures were counted from', () => {
  it('is read beside the loop, times in seconds, wherever the module is', () => {
    expect(counted).toEqual([
      {
        module: 'lift',
        cycles: 1220,
        caught: { of: 3660, balls: 3577 },
        leaked: { of: 3577, balls: 1 },
        stops: [
          { cause: 'jam', stops: 3, over: 3300, clears: 3, prior: { stops: 2.1, over: 2400 } },
          { cause: 'bump', stops: 2, over: 1220, clears: 0 },
          { cause: 'tired', stops: 0, over: 4200, clears: 0 },
        ],
      },
      {
        module: 'wheel-one',
        stops: [
          {
            cause: 'slip',
            stops: 1,
            over: 4000,
            crowded: { stops: 2, over: 900 },
            prior: { stops: 0.5, over: 800 },
            clears: 2,
          },
        ],
      },
      { module: 'second', cycles: 40, stops: [] },
    ]);
  });

  it('changes nothing of the loop', () => {
    const without = parseScenario(COUNTED.replaceAll(/^ {4}counted:\n(?: {6}.*\n)+/gm, ''));
    expect(without.counted?.map(({ module }) => module)).toEqual(['second']);
    expect(without.spec).toEqual(spec);
    expect(simulate(without.spec, { seed: 1, replication: 0 })).toEqual(
      simulate(spec, { seed: 1, replication: 0 }),
    );
  });
});

describe('a figure that is set is taken at its word', () => {
  it.each([
    ['modules.lift.cycle=1 s', { ...lift, cycles: undefined }],
    ['modules.lift.catch=1', { ...lift, caught: undefined }],
    ['modules.lift.leak=0', { ...lift, leaked: undefined }],
    ['modules.lift.stops.jam.running.exponential.mean=30 min', { ...lift, stops: lift?.stops.slice(1) }],
    ['modules.lift.stops.jam.per_ball=0.001', { ...lift, stops: lift?.stops.slice(1) }],
    [
      'modules.lift.stops.jam.crew.clear=40 s',
      { ...lift, stops: lift?.stops.map((one) => ({ ...one, clears: 0 })) },
    ],
    ['modules.lift.stops={ jam: { per_ball: 0.001, itself: 5 s } }', { ...lift, stops: [] }],
  ])('%s', (change, left) => {
    const { counted: now, changesInWords } = after('--set', change);
    expect(now).toEqual([JSON.parse(JSON.stringify(left)), wheel, second]);
    expect(changesInWords[0]).toMatch(/\(taken at its word: it was not counted\)$/);
  });

  it('also where a template says it', () => {
    const slower = after('--set', 'templates.wheel.cycle=4 s');
    expect(slower.counted).toEqual([lift, wheel]);
    const smoother = after('--set', 'templates.wheel.stops.slip.per_ball=0.0001');
    expect(smoother.counted).toEqual([lift, second]);
    // The module says it itself now: what the template says no longer matters to its counts.
    const own = after('--set', 'modules.wheel-one.basket=80', '--set', 'templates.wheel.basket=70');
    expect(own.counted).toEqual(counted);
  });

  it('and what was not counted of it changes nothing', () => {
    for (const change of [
      'modules.lift.basket=80',
      'modules.lift.stops.jam.drops=0.1',
      'modules.lift.stops.jam.crew.notice=5 s',
      'charge=50',
    ]) {
      const { counted: now, changesInWords } = after('--set', change);
      expect(now, change).toEqual(counted);
      expect(changesInWords[0]).not.toMatch(/at its word/);
    }
  });

  it('nor is anything counted of stops that are off', () => {
    expect(after('--stops-off', 'wheel-one').counted).toEqual([lift, second]);
  });

  it('counts can be set like everything else', () => {
    const longer = after('--set', 'modules.lift.counted.stops.jam.in=2 h');
    expect(longer.counted?.[0]?.stops[0]?.over).toBe(7200);
    expect(longer.changesInWords[0]).not.toMatch(/at its word/);
  });
});
