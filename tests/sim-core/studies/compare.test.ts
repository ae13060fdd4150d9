import { describe, expect, it } from 'vitest';
import { measureIndex, showsHere, type StudyTask } from '../../../packages/sim-core/src/experiments/index.js';
import type { Estimate } from '../../../packages/sim-core/src/statistics/index.js';
import {
  compare,
  measureDifference,
  Study,
  type System,
  system,
} from '../../../packages/sim-core/src/studies/index.js';
import { chain, holds, module, seconds } from '../../build.js';
import { exampleLoop } from '../../docs/exampleLoop.js';
import { luck, made } from './made.js';

const BEFORE = system('before', exampleLoop);
const AFTER = system('after', { ...exampleLoop, counter: 1 });
const isAfter = ({ spec }: StudyTask): boolean => spec.counter === 1;

describe('a paired difference', () => {
  it('is that of the sleep data', () => {
    // Student (1908), Biometrika 6, 1-25, additional hours of sleep with two drugs; t = 4.0621 on 9 degrees of freedom,
    // 95 % interval 0.7001 to 2.4599 as given in the manual pages of statistics programs (from memory).
    const { difference, before } = measureDifference(
      'spills_per_hour',
      [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2],
      [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4],
      0.95,
    );
    expect(before.mean).toBeCloseTo(0.75, 12);
    expect(difference.mean).toBeCloseTo(1.58, 12);
    expect(difference.low).toBeCloseTo(0.7001142, 6);
    expect(difference.high).toBeCloseTo(2.4598858, 6);
  });

  it('says what a pair is worth, and leaves out shows with nothing to measure', () => {
    // Differences 1, 1, 1, 2: variance 1/4. Variances 5/3 and 27/12: together 47/12.
    const found = measureDifference('loop_time_s', [1, 2, 3, 4, NaN, 9], [2, 3, 4, 6, 5, NaN], 0.9);
    expect(found.difference.replications).toBe(4);
    expect(found.pair_worth).toBeCloseTo((5 / 3 + 35 / 12) / (1 / 4), 10);
  });

  it('does not reach beyond what shares can differ by', () => {
    // Student's t(4) is 2.776: the interval around -0.9 would end at -0.9 - 2.776 sqrt(0.05 / 5) = -1.18.
    const { difference } = measureDifference('spill_hour_share', [1, 1, 1, 1, 1], [0, 0, 0, 0, 0.5], 0.95);
    expect(difference.mean).toBeCloseTo(-0.9, 12);
    expect(difference.low).toBe(-1);
    expect(difference.high).toBeCloseTo(-0.9 + 2.776 * Math.sqrt(0.05 / 5), 3);
  });
});

describe('a comparison', () => {
  const verdictOf = async (
    value: (task: StudyTask) => number,
    on: string,
    margin: number,
  ): Promise<string> => {
    const study = new Study({ seed: 1, source: made(value) });
    return (await compare(study, BEFORE, AFTER, { replications: 40, on, margin })).verdict;
  };
  const noisy =
    (change: number, own: number) =>
    (task: StudyTask): number =>
      50 +
      20 * luck(task.replication, 'common') +
      (isAfter(task) ? change + own * (luck(task.replication, 'own') - 0.5) : 0);

  it('comes to the right verdict when it is clear', async () => {
    expect(await verdictOf(noisy(-5, 2), 'spills_per_hour', 1)).toBe('better');
    expect(await verdictOf(noisy(5, 2), 'spills_per_hour', 1)).toBe('worse');
    expect(await verdictOf(noisy(5, 2), 'throughput_bps', 1)).toBe('better');
    expect(await verdictOf(noisy(0.2, 2), 'spills_per_hour', 1)).toBe('no difference that matters');
    expect(await verdictOf(noisy(0.5, 30), 'spills_per_hour', 1)).toBe('undecided');
  });

  it('says how many more pairs it would take, and so many are enough', async () => {
    const study = new Study({ seed: 1, source: made(noisy(1.5, 30)) });
    const first = await compare(study, BEFORE, AFTER, { replications: 12, margin: 0 });
    expect(first.verdict).toBe('undecided');
    const more = first.more_replications ?? NaN;
    expect(more).toBeGreaterThan(0);
    // The guess is made from a difference that is itself uncertain; many times as many are enough for sure.
    const second = await compare(study, BEFORE, AFTER, { replications: 12 + 40 * more, margin: 0 });
    expect(second.verdict).toBe('worse');
  });

  it('errs as often as it says where there is no difference', async () => {
    // 1,000 comparisons of 10 pairs without a difference: better or worse in 5 % of them, 3 standard errors 2.1 %.
    let wrong = 0;
    for (let i = 0; i < 1000; i++) {
      const value = (task: StudyTask): number =>
        isAfter(task) ? luck(100 * i + task.replication, 'a') : luck(100 * i + task.replication, 'b');
      const verdict = await verdictOf10(value);
      if (verdict === 'better' || verdict === 'worse') wrong++;
    }
    expect(Math.abs(wrong / 1000 - 0.05)).toBeLessThan(0.021);
  });

  async function verdictOf10(value: (task: StudyTask) => number): Promise<string> {
    const study = new Study({ seed: 1, source: made(value) });
    return (await compare(study, BEFORE, AFTER, { replications: 10, margin: 0 })).verdict;
  }
});

describe('a comparison of what was seen in no show', () => {
  const none = (
    on: string,
    margin: number,
    replications: number,
    stopWhenClear = false,
  ): ReturnType<typeof compare> =>
    compare(new Study({ seed: 1, source: made(() => 0) }), BEFORE, AFTER, {
      replications,
      on,
      margin,
      stopWhenClear,
    });
  const decisive = ({ on, measures }: Awaited<ReturnType<typeof compare>>): Estimate =>
    measures[measureIndex(on)]?.difference as Estimate;

  it('is undecided on spilled balls, however many shows and however wide the margin', async () => {
    for (const stopWhenClear of [false, true]) {
      const found = await none('spills_per_hour', 50, 200, stopWhenClear);
      expect([found.verdict, found.more_replications]).toEqual(['undecided', null]);
      expect(decisive(found)).toMatchObject({ mean: 0, low: null, high: null });
    }
  });

  it('has exact limits on shares of shows', async () => {
    // Clopper and Pearson (1934): none in 40 leaves 1 - 0.025^(1/40) = 8.81 % open for each of the two; one-sided
    // 1 - 0.05^(1/40) = 7.22 %, which is what a margin is held against.
    const found = await none('spill_show_share', 0.08, 40);
    expect(decisive(found).high).toBeCloseTo(1 - 0.025 ** (1 / 40), 9);
    expect(decisive(found).low).toBeCloseTo(0.025 ** (1 / 40) - 1, 9);
    expect(found.verdict).toBe('no difference that matters');
    expect((await none('spill_show_share', 0.07, 40)).verdict).toBe('undecided');
    expect((await none('spill_show_share', 0, 40)).more_replications).toBe(null);
    // ln 0.05 / ln 0.93 = 41.3.
    expect((await none('spill_show_share', 0.07, 40)).more_replications).toBe(2);
  });

  it('has wider limits when it is looked at early', async () => {
    // None in n, one of two sides: (n + 1) (1 - p)^n = 0.025 (Robbins 1970), so p = 1 - (0.025 / (n + 1))^(1 / n).
    const found = await none('spill_show_share', 0.2, 100, true);
    expect([found.verdict, found.replications]).toEqual(['no difference that matters', 40]);
    expect(1 - (0.025 / 31) ** (1 / 30)).toBeGreaterThan(0.2);
    expect(decisive(found).high).toBeCloseTo(1 - (0.025 / 41) ** (1 / 40), 9);
    // A share of hours is at most that of shows with such an hour.
    const hours = await none('spill_hour_share', 0.2, 100, true);
    expect(decisive(hours)).toEqual(decisive(found));
  });
});

describe('a comparison of shows that all differ by the same', () => {
  const three = (replications: number, stopWhenClear = false): ReturnType<typeof compare> =>
    compare(new Study({ seed: 1, source: made((task) => (isAfter(task) ? 5 : 3)) }), BEFORE, AFTER, {
      replications,
      margin: 0.5,
      stopWhenClear,
    });

  it('is undecided when they are few, and says how many it takes', async () => {
    const found = await three(2);
    expect([found.verdict, found.more_replications]).toEqual(['undecided', 34]);
    expect(found.measures[1]).toMatchObject({
      before: { mean: 3, low: null, high: null },
      difference: { mean: 2, low: null, high: null },
    });
    expect((await three(36)).verdict).toBe('worse');
  });

  it('waits for more when it is looked at early', async () => {
    // (n + 1) 0.9^n <= 0.05: 0.0518 at 68, 0.0473 at 69 (by pencil), so at the look after 70.
    const found = await three(200, true);
    expect([found.verdict, found.replications]).toEqual(['worse', 70]);
  });

  it('is decided at once where there is no chance in it, and of a loop against itself', async () => {
    const sure = (basket: number): System =>
      system(`${basket}`, chain([module('one', { basket: holds(basket), cycle: seconds(2) })], 1));
    const source = showsHere();
    const study = new Study({ seed: 1, source });
    // 1 ball a second comes, one in 2 s goes: a basket of 20 keeps 10 more balls of 1,800 from falling than one of 10.
    const found = await compare(study, sure(10), sure(20), { replications: 2, margin: 0 });
    expect(found.verdict).toBe('better');
    expect(Math.abs((found.measures[1]?.difference.mean ?? NaN) + 10)).toBeLessThan(1.5);
    const same = await compare(study, BEFORE, system('again', exampleLoop), { replications: 2, margin: 0 });
    expect(same.verdict).toBe('no difference that matters');
  });
});
