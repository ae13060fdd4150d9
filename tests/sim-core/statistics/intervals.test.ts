import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import {
  clopperPearson,
  clumpedRateInterval,
  clusteredProportion,
  eventRateInterval,
  meanInterval,
  Moments,
  sampleSummary,
  stream,
  wilsonInterval,
} from '../../../packages/sim-core/src/index.js';

function momentsOf(values: readonly number[]): Moments {
  const moments = new Moments();
  for (const value of values) moments.add(value);
  return moments;
}

describe('Student’s t interval', () => {
  it('gives the published interval of a textbook example', () => {
    // Law & Kelton, Simulation Modeling and Analysis, example 4.26: 90 % interval 1.34 +- 0.24 (from memory).
    const { mean, low, high } = meanInterval(
      momentsOf([1.2, 1.5, 1.68, 1.89, 0.95, 1.49, 1.58, 1.55, 0.5, 1.09]),
      0.9,
    );
    expect(mean).toBeCloseTo(1.343, 9);
    expect(((high ?? 0) - (low ?? 0)) / 2).toBeCloseTo(0.24, 2);
  });

  it('uses the tabulated quantiles of t', () => {
    // NIST/SEMATECH e-Handbook, table 1.3.6.7.2: t(0.975): 12.706, 4.303, 2.228, 2.042 for 1, 2, 10, 30 degrees of freedom.
    for (const [degrees, t] of [
      [1, 12.706],
      [2, 4.303],
      [10, 2.228],
      [30, 2.042],
    ] as const) {
      const n = degrees + 1;
      // Values -1 and 1 around 0, or one 0 more: the standard deviation is known.
      const values = Array.from({ length: n }, (_, i) => (n % 2 === 1 && i === 0 ? 0 : i % 2 === 0 ? 1 : -1));
      const sd = Math.sqrt(values.reduce<number>((sum, x) => sum + x * x, 0) / (n - 1));
      expect((meanInterval(momentsOf(values), 0.95).high ?? 0) / (sd / Math.sqrt(n))).toBeCloseTo(t, 3);
    }
  });

  it('covers the true mean as often as it says (2000 samples of 12 exponential values, 90 %)', () => {
    const uniform = stream({ seed: 1, replication: 0, place: null, purpose: 'coverage' });
    let covered = 0;
    for (let sample = 0; sample < 2000; sample++) {
      // Sums of 30 are near enough to normal for t to be exact to the digits tested.
      const values = Array.from({ length: 12 }, () =>
        Array.from({ length: 30 }, () => -Math.log(uniform())).reduce((a, b) => a + b, 0),
      );
      const { low, high } = meanInterval(momentsOf(values), 0.9);
      if ((low ?? 0) <= 30 && (high ?? 0) >= 30) covered++;
    }
    // Binomial standard error sqrt(0.9 x 0.1 / 2000) = 0.0067.
    expect(Math.abs(covered / 2000 - 0.9)).toBeLessThan(3 * 0.0067);
  });

  it('says when there is nothing to say', () => {
    expect(meanInterval(momentsOf([]), 0.95)).toEqual({
      mean: null,
      low: null,
      high: null,
      confidence: 0.95,
      replications: 0,
    });
    expect(meanInterval(momentsOf([3]), 0.95)).toEqual({
      mean: 3,
      low: null,
      high: null,
      confidence: 0.95,
      replications: 1,
    });
    expect(meanInterval(momentsOf([3, NaN, Infinity]), 0.95).replications).toBe(1);
    expect(() => meanInterval(momentsOf([1, 2]), 1)).toThrow(/confidence is 1/);
  });

  it('does not leave the range of the quantity', () => {
    expect(meanInterval(momentsOf([0, 0, 1]), 0.95, { min: 0, max: 1 })).toMatchObject({ low: 0, high: 1 });
  });
});

describe('proportions', () => {
  it('Wilson: rows of the published comparison', () => {
    // Newcombe (1998), Statistics in Medicine 17, 857-872, table I, method 3 (81/263 confirmed by search, others from memory).
    for (const [x, n, low, high] of [
      [81, 263, 0.2553, 0.3662],
      [15, 148, 0.0624, 0.1605],
      [0, 20, 0, 0.1611],
      [1, 29, 0.0061, 0.1718],
    ] as const) {
      const interval = wilsonInterval(x, n, 0.95);
      expect(interval.low).toBeCloseTo(low, 4);
      expect(interval.high).toBeCloseTo(high, 4);
    }
    expect(wilsonInterval(5, 5, 0.95).high).toBe(1);
  });

  it('Clopper-Pearson: the same rows', () => {
    // Newcombe (1998), table I, method 5 (from memory).
    for (const [x, n, low, high] of [
      [81, 263, 0.2527, 0.3676],
      [15, 148, 0.0578, 0.1617],
      [0, 20, 0, 0.1684],
      [1, 29, 0.0009, 0.1776],
    ] as const) {
      const interval = clopperPearson(x, n, 0.95);
      expect(interval.low).toBeCloseTo(low, 4);
      expect(interval.high).toBeCloseTo(high, 4);
    }
  });

  it('Clopper-Pearson: against an independent library, counts that are not whole', () => {
    for (const [x, n] of [
      [2.5, 11.3],
      [7, 611],
      [0.4, 3.2],
    ] as const) {
      const { low, high } = clopperPearson(x, n, 0.9);
      expect(low).toBeCloseTo(jstat.beta.inv(0.05, x, n - x + 1), 6);
      expect(high).toBeCloseTo(jstat.beta.inv(0.95, x + 1, n - x), 6);
    }
  });

  it('clustered hours: wider when the hours of a show are alike, as wide as single hours when they are not', () => {
    const alike = momentsOf([...Array<number>(10).fill(1), ...Array<number>(30).fill(0)]);
    const mixed = momentsOf(Array.from({ length: 40 }, (_, i) => (i % 2 === 0 ? 1 / 6 : 2 / 6)));
    const width = (moments: Moments): number => {
      const { low, high } = clusteredProportion(moments, 6, 0.95);
      return (high ?? NaN) - (low ?? NaN);
    };
    const forty = clopperPearson(10, 40, 0.95);
    const all = clopperPearson(60, 240, 0.95);
    expect(width(alike)).toBeGreaterThan(0.97 * (forty.high - forty.low));
    expect(width(mixed)).toBeGreaterThan(all.high - all.low);
    expect(width(mixed)).toBeLessThan(1.1 * (all.high - all.low));
  });

  it('clustered hours cover the truth at least as often as they say (1000 studies, hours that share a show’s luck)', () => {
    const uniform = stream({ seed: 2, replication: 0, place: null, purpose: 'coverage' });
    let covered = 0;
    for (let study = 0; study < 1000; study++) {
      const shares = new Moments();
      for (let show = 0; show < 30; show++) {
        // Half of the shows are bad ones: chance 0.5 an hour instead of 0.1. The mean is 0.3.
        const chance = uniform() < 0.5 ? 0.5 : 0.1;
        let hours = 0;
        for (let hour = 0; hour < 6; hour++) if (uniform() < chance) hours++;
        shares.add(hours / 6);
      }
      const { low, high } = clusteredProportion(shares, 6, 0.95);
      if ((low ?? 1) <= 0.3 && (high ?? 0) >= 0.3) covered++;
    }
    // Standard error of the coverage: 0.0069. Exact binomial limits are conservative, never short.
    expect(covered / 1000).toBeGreaterThan(0.95 - 3 * 0.0069);
  });
});

describe('rates of single events', () => {
  it('have the exact limits of a Poisson count while events are few', () => {
    // Garwood (1936), 95 % limits of a count: 0: 0 to 3.689; 1: 0.0253 to 5.572; 5: 1.623 to 11.668; 20: 12.217 to 30.888
    // (from memory).
    for (const [count, low, high] of [
      [0, 0, 3.689],
      [1, 0.0253, 5.572],
      [5, 1.623, 11.668],
      [20, 12.217, 30.888],
    ] as const) {
      // All in one of four shows of five hours: the limits depend on the count alone.
      const interval = eventRateInterval(momentsOf([count / 5, 0, 0, 0]), 5, 0.95);
      expect((interval.low ?? NaN) * 20).toBeCloseTo(low, 3);
      expect((interval.high ?? NaN) * 20).toBeCloseTo(high, 3);
    }
  });

  it('are Student’s with thirty events and more', () => {
    const many = momentsOf([2, 3, 1, 4]);
    expect(eventRateInterval(many, 5, 0.95)).toEqual(meanInterval(many, 0.95, { min: 0 }));
  });
});

describe('rates of balls that fall many at a time', () => {
  it('have no upper limit when none was seen, and Student’s interval when most shows saw some', () => {
    expect(clumpedRateInterval(momentsOf([0, 0, 0, 0]), 0, 0.95)).toMatchObject({
      mean: 0,
      low: 0,
      high: null,
    });
    const most = momentsOf([3, 4, 0, 5]);
    const all = momentsOf([3, 4, 1, 5]);
    expect(clumpedRateInterval(all, 4, 0.95)).toEqual(meanInterval(all, 0.95, { min: 0 }));
    expect(clumpedRateInterval(most, 3, 0.95).high ?? 0).toBeGreaterThan(meanInterval(most, 0.95).high ?? 0);
    expect(() => clumpedRateInterval(most, 5, 0.95)).toThrow(/seen is 5/);
  });

  it('cover the truth where Student’s interval does not: one show in fifty spills, 60 balls on average (2000 studies)', () => {
    const uniform = stream({ seed: 3, replication: 0, place: null, purpose: 'coverage' });
    const truth = 0.02 * 60;
    let covered = 0;
    let byStudent = 0;
    let limited = 0;
    for (let study = 0; study < 2000; study++) {
      const rates = new Moments();
      let seen = 0;
      for (let show = 0; show < 100; show++) {
        const spills = uniform() < 0.02;
        if (spills) seen++;
        rates.add(spills ? -60 * Math.log(uniform()) : 0);
      }
      if (seen === 0) continue;
      limited++;
      const { low, high } = clumpedRateInterval(rates, seen, 0.95);
      if ((low ?? NaN) <= truth && truth <= (high ?? NaN)) covered++;
      const student = meanInterval(rates, 0.95, { min: 0 });
      if ((student.low ?? NaN) <= truth && truth <= (student.high ?? NaN)) byStudent++;
    }
    // Conservative by construction; three standard errors of the coverage are 0.015.
    expect(covered / limited).toBeGreaterThan(0.95 - 0.015);
    expect(byStudent / limited).toBeLessThan(0.9);
  });
});

describe('sampleSummary', () => {
  it('gives the certified mean and standard deviation of NIST’s numerical accuracy data', () => {
    // NIST StRD, NumAcc2: 1.2, then 1.1 and 1.3 alternating 500 times; mean 1.2, standard deviation 0.1 (certified).
    const values = Float64Array.from({ length: 1001 }, (_, i) => (i === 0 ? 1.2 : i % 2 === 1 ? 1.1 : 1.3));
    const summary = sampleSummary(values);
    expect(summary.mean).toBeCloseTo(1.2, 14);
    expect(summary.sd).toBeCloseTo(0.1, 14);
    // NumAcc3: the same around 1000000.2.
    const large = sampleSummary(
      Float64Array.from({ length: 1001 }, (_, i) =>
        i === 0 ? 1_000_000.2 : i % 2 === 1 ? 1_000_000.1 : 1_000_000.3,
      ),
    );
    expect(large.mean).toBeCloseTo(1_000_000.2, 8);
    expect(large.sd).toBeCloseTo(0.1, 8);
  });

  it('interpolates quantiles linearly (type 7 of Hyndman & Fan, the default of R)', () => {
    // R: quantile(c(1, 2, 4, 8, 16), c(.05, .5, .95)) gives 1.2, 4.0, 14.4 (from memory of the definition).
    const { p05, p50, p95 } = sampleSummary(Float64Array.of(16, 1, 4, 2, 8));
    expect([p05, p50, p95]).toEqual([1.2, 4, 14.4].map((x) => expect.closeTo(x, 12)));
  });
});
