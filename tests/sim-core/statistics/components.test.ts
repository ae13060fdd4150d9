import { describe, expect, it } from 'vitest';
import {
  plausibleInterval,
  plausibleMeans,
  shareBetween,
  shareUpTo,
  varianceComponents,
} from '../../../packages/sim-core/src/statistics/index.js';
import { normalQuantile } from '../../../packages/sim-core/src/numerics/index.js';
import { stream } from '../../../packages/sim-core/src/random/index.js';

describe('variance components', () => {
  it('are those of an analysis of variance by pencil', () => {
    // Group means 2, 5 and 8 about 5: mean square between 2 (9 + 0 + 9) / 2 = 18; within 2 each; (18 - 2) / 2 = 8 between.
    const found = varianceComponents([
      [1, 3],
      [4, 6],
      [7, 9],
    ]);
    expect(found).toEqual({
      groups: 3,
      each: 2,
      mean: 5,
      between: 8,
      within: 2,
      meanSquareBetween: 18,
      means: [2, 5, 8],
    });
    expect(shareBetween(found, 0.95).mean).toBeCloseTo(0.8, 12);
  });

  it('are not below 0 when groups are more alike than their values', () => {
    const found = varianceComponents([
      [0, 10],
      [10, 0],
      [4, 6],
    ]);
    expect([found.between, shareBetween(found, 0.95).low]).toEqual([0, 0]);
  });

  it('have an interval from the F distribution', () => {
    // The ratio is 9, below F(0.975; 2, 3) = 16.04, so the low end is 0; 1 / F(0.025; 2, 3) = F(0.975; 3, 2) = 39.17 (the
    // usual tables at 2.5 %, from memory).
    const found = varianceComponents([
      [1, 3],
      [4, 6],
      [7, 9],
    ]);
    const { low, high } = shareBetween(found, 0.95);
    expect(low).toBe(0);
    const over = (9 * 39.17 - 1) / 2;
    expect(high).toBeCloseTo(over / (1 + over), 4);
  });

  it('refuse groups of different sizes, or too few', () => {
    expect(() => varianceComponents([[1, 2], [3]])).toThrow(/values in a group/);
    expect(() => varianceComponents([[1, 2]])).toThrow(/at least 2/);
    expect(() => varianceComponents([[1], [2]])).toThrow(/at least 2/);
  });
});

describe('plausible means', () => {
  it('without luck are the groups themselves, with quantiles at p (K + 1)', () => {
    const groups = Array.from({ length: 39 }, (_, i) => [i + 1, i + 1]);
    const plausible = plausibleMeans(varianceComponents(groups));
    // One more of 40 like values lies below the smallest of 39 with chance 1 / 40.
    expect(plausibleInterval(plausible, 0.95)).toEqual({ low: 1, high: 39 });
    expect(shareUpTo(plausible, 13)).toBeCloseTo(13 / 39, 12);
  });

  it('hold one more group at 95 % when luck is as large as what is between, and larger', () => {
    // By the model itself: normal groups, normal luck; the true mean of a 61st group.
    const u = stream({ seed: 21, replication: 0, place: null, purpose: 'test' });
    const z = (): number => normalQuantile(u());
    for (const luck of [1, 3]) {
      let inside = 0;
      for (let study = 0; study < 1000; study++) {
        const groups = Array.from({ length: 60 }, () => {
          const mean = z();
          return [mean + luck * z(), mean + luck * z()];
        });
        const { low, high } = plausibleInterval(plausibleMeans(varianceComponents(groups)), 0.95);
        const real = z();
        if (low <= real && real <= high) inside++;
      }
      expect(inside, `luck ${luck}`).toBeGreaterThanOrEqual(930);
      if (luck === 1) expect(inside).toBeLessThanOrEqual(970);
    }
  });

  it('ask for enough groups', () => {
    const few = varianceComponents(Array.from({ length: 19 }, (_, i) => [i, i + 1]));
    expect(() => plausibleMeans(few)).toThrow(/at least 20/);
  });
});
