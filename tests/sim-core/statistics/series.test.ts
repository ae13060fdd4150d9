import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  medianInterval,
  mser5,
  mtbfInterval,
  quantileInterval,
  quantileRanks,
  stream,
  valuesToBoundQuantile,
} from '../../../packages/sim-core/src/index.js';
import { normalQuantile } from '../../../packages/sim-core/src/numerics/index.js';

const uniformFor = (purpose: string) => stream({ seed: 14, replication: 0, place: null, purpose });

describe('quantile by order statistics', () => {
  it('has the ranks and coverage of the binomial distribution summed term by term', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60 }),
        fc.double({ min: 0.02, max: 0.98, noNaN: true }),
        fc.double({ min: 0.5, max: 0.99, noNaN: true }),
        (n, share, confidence) => {
          let ways = 1;
          const terms = Array.from({ length: n + 1 }, (_, k) => {
            if (k > 0) ways = (ways * (n - k + 1)) / k;
            return ways * share ** k * (1 - share) ** (n - k);
          });
          const between = (from: number, to: number): number =>
            terms.slice(Math.max(0, from), to + 1).reduce((a, b) => a + b, 0);
          const { lower, upper, coverage } = quantileRanks(n, share, confidence);
          const tail = (1 - confidence) / 2;
          const slack = 1e-9;
          expect(between(0, lower - 1)).toBeLessThanOrEqual(lower === 0 ? 0 : tail + slack);
          expect(between(0, lower)).toBeGreaterThan(tail - slack);
          expect(between(upper, n)).toBeLessThanOrEqual(tail + slack);
          expect(between(upper - 1, n)).toBeGreaterThan(tail - slack);
          expect(coverage).toBeCloseTo(between(lower, upper - 1), 9);
          expect(coverage).toBeGreaterThanOrEqual(confidence - slack);
        },
      ),
      { seed: 1, numRuns: 300 },
    );
  });

  it('covers the true quantile as often as its exact coverage says, whatever the distribution (2000 studies)', () => {
    const uniform = uniformFor('quantile');
    let covered = 0;
    for (let study = 0; study < 2000; study++) {
      const values = Array.from({ length: 40 }, () => -Math.log(uniform()));
      const { low, high } = quantileInterval(values, 0.9, 0.8);
      if ((low ?? -Infinity) <= Math.log(10) && Math.log(10) <= (high ?? Infinity)) covered++;
    }
    const { coverage } = quantileRanks(40, 0.9, 0.8);
    expect(Math.abs(covered / 2000 - coverage)).toBeLessThan(
      3 * Math.sqrt((coverage * (1 - coverage)) / 2000),
    );
  });

  it('has no limit where no value is far enough out, and leaves the values as they are', () => {
    const values = [3, 1, 2];
    expect(medianInterval(values, 0.95)).toMatchObject({ mean: 2, low: null, high: null, replications: 3 });
    expect(values).toEqual([3, 1, 2]);
    expect(quantileInterval(Float64Array.of(9, 10, 2, 1), 0.01, 0.8)).toMatchObject({ low: null, high: 1 });
    expect(() => medianInterval([], 0.95)).toThrow(/values.length is 0/);
    expect(() => quantileRanks(5, 1, 0.95)).toThrow(/share is 1/);
  });

  it('counts the values it takes to bound a quantile', () => {
    for (const [share, confidence] of [
      [0.9, 0.9],
      [0.5, 0.5],
      [0.99, 0.95],
    ] as const) {
      const n = valuesToBoundQuantile(share, confidence);
      expect(1 - share ** n).toBeGreaterThanOrEqual(confidence);
      expect(1 - share ** (n - 1)).toBeLessThan(confidence);
    }
  });
});

describe('mean time between failures', () => {
  it('covers the true mean at least as often as it says (2000 watches of some four failures)', () => {
    const uniform = uniformFor('mtbf');
    let covered = 0;
    for (let watch = 0; watch < 2000; watch++) {
      let failures = 0;
      for (let time = -Math.log(uniform()); time < 4; time -= Math.log(uniform())) failures++;
      const { low, high } = mtbfInterval(4, failures, 0.9);
      if (low <= 1 && 1 <= (high ?? Infinity)) covered++;
    }
    // Limits of a count are conservative: never short, but for three standard errors of 0.0067.
    expect(covered / 2000).toBeGreaterThan(0.9 - 3 * 0.0067);
    expect(covered / 2000).toBeLessThan(0.98);
  });

  it('has no upper limit without failures', () => {
    expect(mtbfInterval(1000, 0, 0.95)).toMatchObject({ mean: null, high: null, failures: 0 });
    expect(() => mtbfInterval(0, 1, 0.95)).toThrow(/time is 0/);
    expect(() => mtbfInterval(1, 1.5, 0.95)).toThrow(/failures is 1.5/);
  });
});

describe('MSER-5', () => {
  /** The definition, written out: for each cut the spread of what is left, from its own mean. */
  function byDefinition(values: readonly number[]): { truncate: number; statistic: number } {
    const batches = Array.from(
      { length: Math.floor(values.length / 5) },
      (_, j) => [0, 1, 2, 3, 4].reduce((sum, i) => sum + (values[5 * j + i] ?? NaN), 0) / 5,
    );
    let best = { truncate: 0, statistic: Infinity };
    for (let d = 0; d <= Math.floor(batches.length / 2); d++) {
      const left = batches.slice(d);
      const mean = left.reduce((a, b) => a + b, 0) / left.length;
      const statistic = left.reduce((sum, z) => sum + (z - mean) ** 2, 0) / left.length ** 2;
      if (statistic < best.statistic) best = { truncate: 5 * d, statistic };
    }
    return best;
  }

  it('cuts where its definition says, in series that settle', () => {
    const uniform = uniformFor('mser');
    for (let series = 0; series < 100; series++) {
      const length = 20 + Math.floor(200 * uniform());
      const start = 10 * uniform();
      const values = Array.from({ length }, (_, i) => start * Math.exp(-i / 15) + normalQuantile(uniform()));
      const own = mser5(values);
      const expected = byDefinition(values);
      expect(own.truncate).toBe(expected.truncate);
      expect(own.statistic).toBeCloseTo(expected.statistic, 12);
    }
  });

  it('brings the mean of a series that begins far off close to what it settles at', () => {
    const uniform = uniformFor('bias');
    let [kept, whole] = [0, 0];
    for (let series = 0; series < 200; series++) {
      const values = Array.from(
        { length: 500 },
        (_, i) => 10 * Math.exp(-i / 20) + normalQuantile(uniform()),
      );
      const meanFrom = (from: number): number =>
        values.slice(from).reduce((a, b) => a + b, 0) / (values.length - from);
      kept += meanFrom(mser5(values).truncate) / 200;
      whole += meanFrom(0) / 200;
    }
    // 10 x 20 / 500 = 0.4 from the start; a mean of 450 values has a standard error of 0.05, of 200 of them 0.003.
    expect(whole).toBeGreaterThan(0.38);
    expect(Math.abs(kept)).toBeLessThan(0.04);
  });

  it('takes the earliest of equal cuts, and says when the series is too short to tell', () => {
    expect(mser5(Array.from({ length: 40 }, () => 7))).toEqual({ truncate: 0, atLimit: false, statistic: 0 });
    expect(mser5(Array.from({ length: 40 }, (_, i) => i)).atLimit).toBe(true);
    expect(() => mser5([1, 2, 3])).toThrow(/values.length is 3/);
    expect(() => mser5(Array.from({ length: 20 }, (_, i) => (i === 7 ? NaN : 1)))).toThrow(
      /values\[7\] is NaN/,
    );
  });
});
