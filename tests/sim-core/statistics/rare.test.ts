import { describe, expect, it } from 'vitest';
import {
  areAlike,
  isRare,
  meanOverShows,
  ofAlike,
  replicationsUntilRare,
} from '../../../packages/sim-core/src/statistics/index.js';
import { pairedOverShows } from '../../../packages/sim-core/src/studies/overShows.js';
import { momentsOf } from '../../../packages/sim-core/src/statistics/index.js';

describe('what was seen in none of so many shows', () => {
  it('is rare for sure from 36 on, by pencil', () => {
    // Clopper and Pearson (1934): 1 - 0.025^(1/n) <= 0.1 when n >= ln 0.025 / ln 0.9 = 3.6889 / 0.10536 = 35.01.
    expect([isRare(35, 0.95), isRare(36, 0.95)]).toEqual([false, true]);
    expect(replicationsUntilRare(0.95)).toBe(36);
    // ln 0.005 / ln 0.9 = 5.2983 / 0.10536 = 50.29; ln 0.05 / ln 0.9 = 28.43.
    expect([replicationsUntilRare(0.99), replicationsUntilRare(0.9)]).toEqual([51, 29]);
    expect(isRare(0, 0.95)).toBe(false);
  });

  it('is held to be rare wrongly no more often than stated', () => {
    // Where just 1 show in 10 sees a spill, 36 shows without one happen with a chance of 0.9^36 = 2.25 %, below 2.5 %.
    expect(0.9 ** replicationsUntilRare(0.95)).toBeLessThan(0.025);
    expect(0.9 ** (replicationsUntilRare(0.95) - 1)).toBeGreaterThan(0.025);
  });
});

describe('shows that all came out alike', () => {
  const estimate = { mean: 3, low: 3, high: 3, confidence: 0.95, replications: 5 };

  it('have an interval when it is certain, or when there are enough of them', () => {
    expect(ofAlike(estimate, false)).toEqual({ ...estimate, low: null, high: null });
    expect(ofAlike(estimate, true)).toEqual(estimate);
    const many = { ...estimate, replications: 36 };
    expect(ofAlike(many, false)).toEqual(many);
    expect(meanOverShows(momentsOf([3, 3]), 0.95, false)).toMatchObject({ mean: 3, low: null, high: null });
    expect(meanOverShows(momentsOf([3, 3]), 0.95, true)).toMatchObject({ mean: 3, low: 3, high: 3 });
  });

  it('are told from others but for rounding', () => {
    // 0.3 - 0.1 and 0.5 - 0.3 differ in the last digit of a double.
    expect(0.3 - 0.1).not.toBe(0.5 - 0.3);
    const few = pairedOverShows([0.1, 0.3], [0.3, 0.5], 0.95, false);
    expect(few).toMatchObject({ pairWorth: null, standardError: null, p: null });
    expect(few.difference).toMatchObject({ low: null, high: null, replications: 2 });
    expect(areAlike(momentsOf([1, 1 + 1e-6]).variance, 1)).toBe(false);
    // Values that differ have Student's interval: 2 +- 12.706 x 0.7071 / 1.4142 (t of 1 degree: any table).
    const { difference } = pairedOverShows([1, 1], [2.5, 3.5], 0.95, false);
    expect(difference.high).toBeCloseTo(2 + 12.7062 / 2, 3);
  });
});
