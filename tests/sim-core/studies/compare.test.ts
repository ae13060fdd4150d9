import { describe, expect, it } from 'vitest';
import type { StudyTask } from '../../../packages/sim-core/src/experiments/index.js';
import { compare, measureDifference, Study, system } from '../../../packages/sim-core/src/studies/index.js';
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
