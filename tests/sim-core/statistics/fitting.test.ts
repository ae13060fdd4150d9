import { describe, expect, it } from 'vitest';
import {
  exponentialFit,
  kolmogorovCdf,
  kolmogorovLimit,
  lognormalFit,
  stream,
  wearCheck,
  weibullFit,
} from '../../../packages/sim-core/src/index.js';
import { listParam } from '../../reference/published.js';

describe('the distribution of Kolmogorov and Smirnov', () => {
  it('goes over into the limit, and from 0 to 1', () => {
    expect(Math.abs(kolmogorovCdf(1000, 1.3581 / Math.sqrt(1000)) - 0.95)).toBeLessThan(0.003);
    expect(kolmogorovCdf(1001, 1.3581 / Math.sqrt(1001))).toBeCloseTo(0.95, 4);
    expect([kolmogorovCdf(5, 0), kolmogorovCdf(5, 1), kolmogorovLimit(0.1)]).toEqual([0, 1, 0]);
    // One value: D = max(u, 1 - u), which lies below d with chance 2 d - 1.
    expect(kolmogorovCdf(1, 0.7)).toBeCloseTo(0.4, 12);
  });
});

describe('maximum likelihood', () => {
  const bearings = listParam('STAT-MLE', 'bearings');

  it('compares families by their likelihood and number of parameters', () => {
    const { aic, logLikelihood } = weibullFit({ failures: bearings });
    expect(aic).toBeCloseTo(4 - 2 * logLikelihood, 12);
    const one = exponentialFit({ failures: bearings });
    expect(one.aic).toBeCloseTo(2 - 2 * one.logLikelihood, 12);
    expect(aic).toBeLessThan(one.aic);
  });

  it('finds a Weibull distribution again in 2,000 values, censored or not', () => {
    const uniform = stream({ seed: 4, replication: 0, place: null, purpose: 'weibull' });
    const values = Array.from({ length: 2000 }, () => 30 * (-Math.log(uniform())) ** (1 / 1.7));
    const failures = values.filter((value) => value < 40);
    const censored = values.filter((value) => value >= 40).map(() => 40);
    for (const fit of [weibullFit({ failures: values }), weibullFit({ failures, censored })]) {
      // Standard errors of about 0.78 shape / sqrt(n) and 1.05 scale / (shape sqrt(n)) (Bain 1978, from memory); 4 of them.
      expect(Math.abs(fit.shape - 1.7)).toBeLessThan(0.15);
      expect(Math.abs(fit.scale - 30)).toBeLessThan(2);
    }
  });

  it('refuses what no lifetime can be', () => {
    expect(() => weibullFit({ failures: [3, 3] })).toThrow(/not the same/);
    expect(() => weibullFit({ failures: [3] })).toThrow(/at least 2/);
    // However high the shape, a higher one is likelier: nothing says where it ends.
    expect(() => weibullFit({ failures: [3, 3], censored: [2] })).toThrow(/not the same/);
    expect(() => lognormalFit([1, -1])).toThrow(/above 0/);
    expect(() => exponentialFit({ failures: [1, Infinity] })).toThrow(/finite/);
    expect(() => kolmogorovCdf(0, 0.5)).toThrow(/n/);
  });

  it('fits stops as regular as a clock', () => {
    // The k-th root of a time with shape c has shape c k, by its distribution function (by hand).
    for (const k of [10, 100, 1000, 1e6]) {
      const roots = bearings.map((time) => time ** (1 / k));
      expect(
        weibullFit({ failures: roots }).shape / weibullFit({ failures: bearings }).shape / k,
      ).toBeCloseTo(1, 6);
    }
    expect(
      wearCheck({ failures: [3601, 3600, 3604, 3602, 3603, 3604, 3605, 3602, 3601, 3605] }, 0.95).low,
    ).toBeGreaterThan(100);
  });
});
