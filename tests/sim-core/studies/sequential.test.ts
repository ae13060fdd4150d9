import { describe, expect, it } from 'vitest';
import type { StudyTask } from '../../../packages/sim-core/src/experiments/index.js';
import { normalQuantile } from '../../../packages/sim-core/src/numerics/index.js';
import { compare, Study, system, untilNarrow } from '../../../packages/sim-core/src/studies/index.js';
import { exampleLoop } from '../../docs/exampleLoop.js';
import { luck, made } from './made.js';

const BEFORE = system('before', exampleLoop);
const AFTER = system('after', { ...exampleLoop, counter: 1 });
const isAfter = ({ spec }: StudyTask): boolean => spec.counter === 1;

/** A normal number of study `i` and a replication. */
function normal(i: number, replication: number, purpose: string): number {
  return normalQuantile(luck(1000 * i + replication, purpose));
}

/** Shares of 2,000 comparisons that stop when clear and come to each verdict, the true difference being known. */
async function verdicts(difference: number, margin: number): Promise<Record<string, number>> {
  const count: Record<string, number> = {};
  for (let i = 0; i < 2000; i++) {
    const value = (task: StudyTask): number =>
      10 +
      2 * normal(i, task.replication, 'common') +
      (isAfter(task) ? difference + normal(i, task.replication, 'own') : 0);
    const study = new Study({ seed: 1, source: made(value) });
    const { verdict } = await compare(study, BEFORE, AFTER, {
      replications: 150,
      margin,
      stopWhenClear: true,
    });
    count[verdict] = (count[verdict] ?? 0) + 1 / 2000;
  }
  return count;
}

describe('a comparison that stops when it is clear', () => {
  it('errs in at most 5 % of 2,000 decisions without a difference, though it looks thirteen times', async () => {
    const { better = 0, worse = 0 } = await verdicts(0, 0);
    expect(better + worse).toBeLessThanOrEqual(0.05);
  });

  it('errs in at most 5 % of 2,000 decisions on a difference that just matters', async () => {
    const { better = 0, 'no difference that matters': none = 0 } = await verdicts(0.4, 0.4);
    expect(better + none).toBeLessThanOrEqual(0.05);
  });

  it('would err far more often if it took the usual interval at each look', () => {
    // What is guarded against (Armitage, McPherson & Rowe 1969, JRSS A 132, 235-244: 10 looks at 5 % each give 19 %).
    let wrong = 0;
    for (let i = 0; i < 2000; i++) {
      let [sum, squares] = [0, 0];
      for (let n = 1; n <= 150; n++) {
        const d = normal(i, n, 'own');
        sum += d;
        squares += d * d;
        const error = Math.sqrt((squares - (sum * sum) / n) / (n - 1) / n);
        if (n >= 30 && n % 10 === 0 && Math.abs(sum / n) > 1.98 * error) {
          wrong++;
          break;
        }
      }
    }
    expect(wrong / 2000).toBeGreaterThan(0.1);
  });

  it('stops early when the difference is plain, and at the cap when it is not', async () => {
    const run = async (difference: number): Promise<number> => {
      const value = (task: StudyTask): number =>
        10 + (isAfter(task) ? difference + normal(1, task.replication, 'own') : 0);
      const study = new Study({ seed: 1, source: made(value) });
      return (await compare(study, BEFORE, AFTER, { replications: 150, margin: 0, stopWhenClear: true }))
        .replications;
    };
    expect(await run(5)).toBe(30);
    expect(await run(0)).toBe(150);
  });
});

describe('shows until the interval is narrow', () => {
  const found = (
    i: number,
    options: Parameters<typeof untilNarrow>[2],
    value?: (task: StudyTask) => number,
  ) =>
    untilNarrow(
      new Study({
        seed: 1,
        source: made(value ?? (({ replication }) => 10 + normal(i, replication, 'own'))),
      }),
      exampleLoop,
      options,
    );

  it('are as narrow as asked and hold the truth as often as they say, 1,000 times', async () => {
    let missed = 0;
    for (let i = 0; i < 1000; i++) {
      const { narrow, estimate } = await found(i, { within: { absolute: 0.25 }, atMost: 600 });
      const { low, high } = estimate;
      expect(narrow).toBe(true);
      expect(((high ?? NaN) - (low ?? NaN)) / 2).toBeLessThanOrEqual(0.25);
      if (!((low ?? NaN) <= 10 && (high ?? NaN) >= 10)) missed++;
    }
    expect(missed / 1000).toBeLessThanOrEqual(0.05);
  });

  it('end at the cap, and say so and how many it would take', async () => {
    const {
      narrow,
      replications,
      would_take: more,
    } = await found(3, {
      within: { relative: 0.001 },
      atMost: 50,
    });
    expect([narrow, replications]).toEqual([false, 50]);
    // Half a width of 0.01 at standard deviation 1: (1.96 / 0.01)^2 = 38,416 looked at once, more when looked at often.
    expect(more).toBeGreaterThan(38_416 / 2);
    expect(more).toBeLessThan(38_416 * 6);
  });

  it('of a share hold the share', async () => {
    const value = ({ replication }: StudyTask): number => (luck(replication, 'coin') < 0.3 ? 1 : 0);
    const { estimate } = await found(0, { on: 'spill_show_share', within: { absolute: 0.06 } }, value);
    expect(estimate.low ?? NaN).toBeLessThan(0.3);
    expect(estimate.high ?? NaN).toBeGreaterThan(0.3);
  });

  it('cannot be narrowed where nothing happens', async () => {
    const {
      narrow,
      estimate,
      would_take: more,
    } = await found(0, { within: { relative: 0.1 }, atMost: 60 }, () => 0);
    expect([narrow, estimate.mean, estimate.low, more]).toEqual([false, 0, null, null]);
  });
});
