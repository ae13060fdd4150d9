import { describe, expect, it } from 'vitest';
import { stream } from '../../../packages/sim-core/src/random/index.js';
import { normalQuantile } from '../../../packages/sim-core/src/numerics/index.js';
import { clusteredQuantile, waitingQuantile } from '../../../packages/sim-core/src/statistics/index.js';

describe('a quantile of waits', () => {
  it('takes those that did not end for later than all others', () => {
    const waits = [50, 20, Infinity, 10, 40, Infinity, 30, Infinity, Infinity, Infinity];
    expect(waitingQuantile(waits, 0.1, 0.95).mean).toBe(10);
    expect(waitingQuantile(waits, 0.5, 0.95).mean).toBe(50);
    expect(waitingQuantile(waits, 0.51, 0.95)).toMatchObject({ mean: null, high: null });
    // The median of ten lies between the second and the ninth of them with 97.9 % (Conover 1999, table of the binomial
    // distribution with p = 1/2, from memory); here the ninth did not end.
    expect(waitingQuantile(waits, 0.5, 0.95)).toMatchObject({ low: 20, high: null });
    const ended = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
    expect(waitingQuantile(ended, 0.5, 0.95)).toMatchObject({ mean: 5, low: 2, high: 9 });
    // 59 is the smallest number of values whose smallest lies below the 5 % quantile with 95 % (Wilks 1941): with 40
    // there is no lower limit.
    expect(waitingQuantile(ended.concat(ended, ended, ended), 0.05, 0.95)).toMatchObject({ low: null });
  });

  it.each([
    [[], 0.5, 0.95],
    [[1], 0, 0.95],
    [[1], 0.5, 1],
  ])('refuses %j', (waits, share, confidence) => {
    expect(() => waitingQuantile(waits, share, confidence)).toThrow(/waitingQuantile|quantileRanks/);
  });
});

describe('a quantile of waits that come in shows', () => {
  const luck = stream({ seed: 12, replication: 0, place: null, purpose: 'clusters' });
  const normal = (): number => normalQuantile(luck());
  /** Waits with something common to each show; the median of all is 100. */
  const study = (shows: number, waits: number, common: number): number[][] =>
    Array.from({ length: shows }, () => {
      const shared = common * normal();
      return Array.from({ length: waits }, () => 100 + 10 * (shared + Math.sqrt(1 - common ** 2) * normal()));
    });

  it.each([0, 0.5, 0.9])('holds the true median often enough when shows are alike by %s', (common) => {
    let held = 0;
    const studies = 400;
    for (let i = 0; i < studies; i++) {
      const { low, high } = clusteredQuantile(study(30, 8, common), 0.5, 0.95);
      if ((low ?? -Infinity) <= 100 && 100 <= (high ?? Infinity)) held++;
    }
    expect(held / studies).toBeGreaterThan(0.95 - 3 * Math.sqrt((0.95 * 0.05) / studies));
  });

  it('is wider the more alike the waits of a show are, and says so when there is nothing to go by', () => {
    const width = (common: number): number => {
      const { low, high } = clusteredQuantile(study(40, 10, common), 0.5, 0.95);
      return (high ?? NaN) - (low ?? NaN);
    };
    expect(width(0.95)).toBeGreaterThan(1.5 * width(0));
    expect(clusteredQuantile([[], []], 0.5, 0.95)).toMatchObject({ mean: null, low: null, replications: 0 });
    expect(
      clusteredQuantile(
        [
          [Infinity, 3],
          [Infinity, Infinity],
        ],
        0.5,
        0.95,
      ),
    ).toMatchObject({ mean: null });
  });
});
