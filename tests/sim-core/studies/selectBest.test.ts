import { describe, expect, it } from 'vitest';
import {
  MEASURES,
  type ShowSource,
  type StudyTask,
} from '../../../packages/sim-core/src/experiments/index.js';
import { normalQuantile } from '../../../packages/sim-core/src/numerics/index.js';
import { stream } from '../../../packages/sim-core/src/random/index.js';
import {
  type BestOf,
  selectBest,
  type SelectBestOptions,
  Study,
  type System,
  system,
} from '../../../packages/sim-core/src/studies/index.js';
import { exampleLoop } from '../../docs/exampleLoop.js';

/** So many different loops; which one it is can be told from the balls in the first basket. */
function loops(count: number): System[] {
  return Array.from({ length: count }, (_, i) =>
    system(`loop ${i}`, { ...exampleLoop, supply: { kind: 'charge', placed: [i, 10] } }),
  );
}

function numberOf({ spec: { supply } }: StudyTask): number {
  return supply.kind === 'charge' ? (supply.placed[0] ?? NaN) : NaN;
}

/** A source in which every measure is a number made up from the task. */
function made(value: (task: StudyTask) => number): ShowSource {
  return {
    size: 4,
    run: (task) => {
      const found = value(task);
      return Promise.resolve(MEASURES.map(() => found));
    },
    close: () => Promise.resolve(),
  };
}

/** Normal numbers that depend on nothing but what they are for. */
function normal(purpose: string, replication: number): number {
  return normalQuantile(stream({ seed: 31, replication, place: null, purpose })());
}

const choose = (
  value: (task: StudyTask) => number,
  count: number,
  options: SelectBestOptions,
): Promise<BestOf> => selectBest(new Study({ seed: 1, source: made(value) }), loops(count), options);

/** The best leads by just the zone, all others are equal: the hardest case, with the best last. Fewer spills are better. */
const SLIPPAGE = [21, 21, 21, 20];
const BEST = 'loop 3';
const RUNS = 500;

describe('the best of several', () => {
  // The promise is a lower bound, so the share of right choices is held against it as it stands, without a tolerance.
  it('is named as often as promised in the slippage configuration, 500 times over, with the same luck', async () => {
    let right = 0;
    let shows = 0;
    for (let run = 0; run < RUNS; run++) {
      // Standard deviation 2, correlation 0.75.
      const value = (task: StudyTask): number =>
        (SLIPPAGE[numberOf(task)] ?? NaN) +
        2 * Math.sqrt(0.75) * normal(`common ${run}`, task.replication) +
        2 * Math.sqrt(0.25) * normal(`own ${run} ${numberOf(task)}`, task.replication);
      const found = await choose(value, 4, { replications: 10_000, zone: 1 });
      expect(found).toMatchObject({ verdict: 'best', promised: 0.95, zone_from: null });
      if (found.best === BEST) right++;
      shows += found.contenders.reduce((sum, one) => sum + one.shows, 0);
    }
    expect(right / RUNS).toBeGreaterThanOrEqual(0.95);
    // Rinott's two stages would take (h s / zone)^2 = (3.2 x 2)^2 shows of each, about 160 in all.
    expect(shows / RUNS).toBeLessThan(100);
  });

  it('is named as often as promised with luck of their own, in two stages', async () => {
    const SPREADS = [1, 2, 1.5, 2];
    let right = 0;
    for (let run = 0; run < RUNS; run++) {
      const value = (task: StudyTask): number =>
        (SLIPPAGE[numberOf(task)] ?? NaN) +
        (SPREADS[numberOf(task)] ?? NaN) * normal(`luck ${run}`, task.replication);
      const found = await choose(value, 4, {
        replications: 10_000,
        zone: 1,
        confidence: 0.9,
        independent: true,
      });
      expect(found).toMatchObject({ verdict: 'best', promised: 0.9, procedure: 'two stages' });
      if (found.best === BEST) right++;
    }
    expect(right / RUNS).toBeGreaterThanOrEqual(0.9);
  });

  it('gives each luck of its own when asked to, and the same luck to all when not', async () => {
    const met = new Map<number, Set<number>>();
    const value = (task: StudyTask): number => {
      met.set(numberOf(task), (met.get(numberOf(task)) ?? new Set()).add(task.replication));
      return normal('x', task.replication) - numberOf(task);
    };
    await choose(value, 3, { replications: 20, zone: 5, independent: true });
    const numbers = [...met.values()].flatMap((set) => [...set]);
    expect(new Set(numbers).size).toBe(numbers.length);
    met.clear();
    await choose(value, 3, { replications: 20, zone: 5 });
    expect([...(met.get(0) ?? [])]).toEqual([...(met.get(2) ?? [])]);
  });

  it('keeps the best among those it names when the shows run out, and says how many would do', async () => {
    let held = 0;
    for (let run = 0; run < 200; run++) {
      const value = (task: StudyTask): number =>
        [24, 21, 20.9, 20][numberOf(task)]! + 2 * normal(`few ${run} ${numberOf(task)}`, task.replication);
      const found = await choose(value, 4, { replications: 12, zone: 0.5 });
      if (found.left.includes(BEST)) held++;
      expect(found.contenders.every(({ shows }) => shows <= 12)).toBe(true);
      if (found.verdict === 'one of these') {
        expect(found).toMatchObject({ promised: 0.9, best: null });
        expect(found.enough).toBeGreaterThan(12);
      }
    }
    expect(held / 200).toBeGreaterThanOrEqual(0.9);
    const value = (task: StudyTask): number => 20 + normal(`all ${numberOf(task)}`, task.replication);
    const alike = await choose(value, 3, { replications: 10, zone: 0.1, independent: true });
    expect(alike).toMatchObject({ verdict: 'one of these', promised: 0.95, left: { length: 3 } });
  });

  it('reads the zone off the first look only', async () => {
    // The first ten shows have a mean of 40, all later ones of 400.
    const value = (task: StudyTask): number =>
      (task.replication < 10 ? 40 : 400) +
      numberOf(task) / 4 +
      normal(`z ${numberOf(task)}`, task.replication);
    const mean = Array.from({ length: 10 }, (_, r) => 40 + normal('z 0', r)).reduce((a, b) => a + b) / 10;
    const found = await choose(value, 3, { replications: 30 });
    expect(found.zone).toBeCloseTo(0.05 * mean, 9);
    expect(found.zone_from).toBe('loop 0');
    // Where the first one has nothing, 5 % of the largest.
    const second = await choose((task) => 8 * numberOf(task), 3, { replications: 40 });
    expect([second.zone, second.zone_from, second.best]).toEqual([0.8, 'loop 2', 'loop 0']);
  });

  it('says who was dropped when, and how far behind', async () => {
    const value = (task: StudyTask): number =>
      [30, 20, 21][numberOf(task)]! + normal(`w ${numberOf(task)}`, task.replication);
    const { contenders } = await choose(value, 3, { replications: 400, zone: 0.5 });
    expect(contenders.map(({ label }) => label)).toEqual(['loop 1', 'loop 2', 'loop 0']);
    expect(contenders[0]).toMatchObject({ behind: null, dropped_after: null });
    expect(contenders[2]).toMatchObject({ shows: 10, dropped_after: 10 });
    expect(contenders[2]?.behind?.low).toBeGreaterThan(8);
    expect(contenders[2]?.behind?.high).toBeLessThan(12);
    const better = await choose(value, 3, { replications: 400, zone: 0.5, on: 'throughput_bps' });
    expect(better.best).toBe('loop 0');
  });

  it('leaves out shows in which one has nothing to measure, for all', async () => {
    const value = (task: StudyTask): number =>
      task.replication % 3 === 1 && numberOf(task) === 1
        ? NaN
        : 10 +
          numberOf(task) +
          normal('n', task.replication) +
          normal(`own ${numberOf(task)}`, task.replication) / 100;
    const found = await choose(value, 2, { replications: 30, zone: 0.5 });
    expect(found.best).toBe('loop 0');
    expect(found.left_out).toBeGreaterThan(0);
    const never = choose((task) => (numberOf(task) === 1 ? NaN : 1), 2, { replications: 30 });
    await expect(never).rejects.toThrow(/--on: found "spills_per_hour", but this must be a measure that has/);
  });

  it('does not choose where there is nothing to choose by', async () => {
    for (const independent of [false, true]) {
      const found = await choose(() => 0, 3, { replications: 50, independent });
      expect(found).toMatchObject({ verdict: 'nothing to choose by', best: null, zone: 0 });
      // What was seen in none of 36 shows is seen in at most 1 of 10: 1 - 0.025^(1/36) = 0.0974 (Clopper-Pearson).
      expect(found.contenders.map(({ shows }) => shows)).toEqual([36, 36, 36]);
    }
  });

  it('names none for counts that are alike in a few shows, and goes on until others are rare for sure', async () => {
    // Three balls in every show of the one, five of the other: of 30 shows that leaves 1 - 0.025^(1/30) = 11.6 % open.
    const value = (task: StudyTask): number => 3 + 2 * numberOf(task);
    for (const independent of [false, true]) {
      const few = await choose(value, 2, { replications: 30, zone: 0.5, independent });
      expect(few).toMatchObject({ verdict: 'one of these', best: null, left: { length: 2 } });
      expect(few.contenders.map(({ mean, behind }) => [mean.high, behind?.high ?? null])).toEqual([
        [null, null],
        [null, null],
      ]);
      const many = await choose(value, 2, { replications: 50, zone: 0.5, independent });
      expect(many).toMatchObject({ verdict: 'best', best: 'loop 0', first_look: 36 });
    }
  });

  it('refuses what does not fit', async () => {
    await expect(choose(() => 1, 1, { replications: 30 })).rejects.toThrow(
      /systems is 1 but must be two or more/,
    );
    await expect(choose(() => 1, 2, { replications: 9 })).rejects.toThrow(/a whole number from 10/);
    await expect(choose(() => 1, 2, { replications: 30, zone: 0 })).rejects.toThrow(/zone is 0/);
    await expect(choose(() => 1, 2, { replications: 30, confidence: 1 })).rejects.toThrow(/confidence is 1/);
  });
});
