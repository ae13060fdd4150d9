import { describe, expect, it } from 'vitest';
import {
  readSplit,
  type SplitReading,
  type SplitStart,
  toSplitStart,
} from '../../../packages/sim-core/src/experiments/index.js';
import { type LoopSpec, simulate } from '../../../packages/sim-core/src/index.js';
import { PreparedLoop } from '../../../packages/sim-core/src/model/index.js';
import { chain, lasting, loop, module, seconds } from '../../build.js';
import { chanceOfSpill, mm1k } from './mm1k.js';

const exponential = (mean: number): { family: 'exponential'; mean: number } => ({
  family: 'exponential',
  mean,
});

function starts(spec: LoopSpec, levels: SplitReading['levels'], count: number, seed = 1): SplitStart[] {
  return Array.from({ length: count }, (_, r) =>
    toSplitStart(readSplit(new PreparedLoop(spec), { kind: 'split', places: [0], levels }, seed, r)),
  );
}

function meanOf(values: readonly number[]): { readonly mean: number; readonly error: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, error: Math.sqrt(squares / (values.length - 1) / values.length) };
}

const chances = (of: readonly SplitStart[]): number[] => of.map(({ chance }) => chance);

/** A lift that stands still from 100 s on while balls come at random, one a second; else it keeps up at once. */
function stoppedLift(room: number, meanStop: number): LoopSpec {
  const { supply } = mm1k(1, 2, 1);
  const jam: LoopSpec['modules'][0]['stops'][0] = {
    id: 'jam',
    trigger: { kind: 'at', times: [100] },
    drops: 0,
    remedy: { kind: 'crew', notice: seconds(0), walk: seconds(0), clear: exponential(meanStop) },
  };
  const basket = { capacity: room, order: 'fifo', whenFull: { kind: 'spill' } } as const;
  return chain([module('lift', { cycle: seconds(0.001), basket, stops: [jam] })], 1, {
    supply,
    show: lasting(100 + 30 * meanStop),
  });
}

describe('multilevel splitting', () => {
  it('of a show that is not split is the show itself', () => {
    const spec = mm1k(0.8, 5, 600);
    const [start] = starts(spec, [], 1);
    const { modules } = simulate(spec, { seed: 1 });
    const spilled = (modules.spillsOnInflow[0] ?? NaN) + (modules.spillsOnBacklog[0] ?? NaN);
    expect(spilled).toBeGreaterThan(0);
    expect(start).toMatchObject({ chance: 1, shows: 1, ballsPerHour: 6 * spilled, peaks: [2] });
  });

  it('keeps the chance that M/M/1/K spills, which is known exactly', () => {
    // TRANS-MM1K, published value by matrix exponential: 0.353060709 within 100 s, rates 0.8 and 1, K = 10.
    expect(chanceOfSpill(0.8, 10, 100)).toBeCloseTo(0.353060709, 8);
    const levels = [
      { share: 0.5, copies: 2 },
      { share: 1, copies: 2 },
    ];
    const { mean, error } = meanOf(chances(starts(mm1k(0.8, 10, 100), levels, 600)));
    expect(Math.abs(mean - 0.353060709) / error).toBeLessThan(3);
  });

  it('finds a chance of three in ten thousand with a tenth of the work', () => {
    const exact = chanceOfSpill(0.5, 15, 100);
    expect(exact).toBeLessThan(3e-4);
    const levels = [0.2, 0.35, 0.5, 0.65, 0.8, 1].map((share) => ({ share, copies: 3 }));
    const found = starts(mm1k(0.5, 15, 100), levels, 1000);
    const { mean, error } = meanOf(chances(found));
    expect(Math.abs(mean - exact) / error).toBeLessThan(3);
    const work = found.reduce((sum, { shows }) => sum + shows, 0);
    expect((exact * (1 - exact)) / error ** 2).toBeGreaterThan(10 * work);
  });

  it('draws again how long a stop still lasts, and keeps its law', () => {
    // More balls than there is room for come before an exponential clearing: each time the ball is first with the same
    // chance, d / (d + 1), since both forget; pencil and paper.
    const meanStop = 10;
    const room = 100;
    const exact = (meanStop / (meanStop + 1)) ** (room + 1);
    const levels = [0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875, 1].map((share) => ({ share, copies: 3 }));
    const found = starts(stoppedLift(room, meanStop), levels, 600);
    const { mean, error } = meanOf(chances(found));
    expect(Math.abs(mean - exact) / error).toBeLessThan(3);
    // Without drawing again, all ways of a stop would end alike, and no start in 600 would be likely to see it.
    const seen = found.filter(({ chance }) => chance > 0).length;
    expect(seen).toBeGreaterThan(10);
  });

  it('agrees with many plain shows of a loop with every kind of stop', () => {
    const spec = busyLoop();
    const plain = starts(spec, [], 500, 7);
    const levels = [0.5, 0.75, 1].map((share) => ({ share, copies: 3 }));
    const split = starts(spec, levels, 150, 8);
    for (const value of ['chance', 'ballsPerHour'] as const) {
      const a = meanOf(plain.map((start) => start[value]));
      const b = meanOf(split.map((start) => start[value]));
      expect(a.mean).toBeGreaterThan(0);
      expect(Math.abs(a.mean - b.mean) / Math.hypot(a.error, b.error)).toBeLessThan(3);
    }
  });
});

/** Three lifts, one minder: stops per ball, by running time, by the clock and that free themselves; ways to run ahead on. */
function busyLoop(): LoopSpec {
  const crew = {
    kind: 'crew',
    notice: seconds(3),
    walk: exponential(4),
    clear: { family: 'lognormal', mean: 20, cv: 0.8 },
  } as const;
  const stop = (id: string, trigger: LoopSpec['modules'][0]['stops'][0]['trigger']) =>
    ({ id, trigger, drops: 0.1, remedy: crew }) as const;
  const basket = (capacity: number) => ({ capacity, order: 'fifo', whenFull: { kind: 'spill' } }) as const;
  const lift = { drive: { kind: 'continuous' }, travel: seconds(6), cycle: seconds(0.8) } as const;
  return loop(
    [
      module('a', {
        ...lift,
        basket: basket(26),
        stops: [
          stop('jam', { kind: 'per_ball', probability: 0.002 }),
          stop('wear', { kind: 'running', time: exponential(600) }),
        ],
      }),
      module('b', {
        ...lift,
        basket: basket(60),
        stops: [stop('battery', { kind: 'clock', time: exponential(500) })],
      }),
      module('c', {
        ...lift,
        basket: basket(60),
        stops: [
          {
            id: 'slip',
            trigger: { kind: 'per_cycle', probability: 0.003 },
            drops: 0,
            remedy: { kind: 'itself', time: exponential(8) },
          },
          stop('wear', { kind: 'running', time: exponential(700) }),
        ],
      }),
    ],
    [12, 12, 12],
    {
      crew: {
        duty: [{ fromSeconds: 0, minders: 1 }],
        rule: 'first_come',
        sweep: { everySeconds: 100, into: 1, takes: seconds(0), lost: 0 },
      },
      show: lasting(600),
    },
  );
}
