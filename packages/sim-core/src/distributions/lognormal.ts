import { requireParameter } from '../errors/index.js';
import { normalCdf, normalQuantile } from '../numerics/index.js';
import { type Distribution, invertible } from './distribution.js';

/**
 * The logarithm is normal: never negative, with a tail of long values; the usual choice for cycle and repair times.
 *
 * sigma^2 = ln(1 + cv^2), mu = ln(mean) - sigma^2 / 2. Johnson, Kotz & Balakrishnan vol. 1, ch. 14 (from memory).
 *
 * @param options.mean above 0
 * @param options.cv above 0, at most 100
 * @throws ParameterError when a parameter is out of range
 * @example
 * lognormal({ mean: 1, cv: 1 }).quantile(0.5) // => Math.exp(-0.5 * Math.log(2))
 */
export function lognormal(options: { readonly mean: number; readonly cv: number }): Distribution {
  const { mean, cv } = options;
  const { mu, sigma } = lognormalParameters(options);
  return invertible({
    family: 'lognormal',
    mean,
    variance: (cv * mean) ** 2,
    cdf: (x) => (x <= 0 ? 0 : normalCdf((Math.log(x) - mu) / sigma)),
    quantile: (p) => Math.exp(mu + sigma * normalQuantile(p)),
  });
}

/**
 * Mean and standard deviation of the logarithm, from the mean and cv of the values themselves.
 *
 * @throws ParameterError when a parameter is out of range
 * @example
 * lognormalParameters({ mean: 1, cv: 1 }) // => { mu: -0.5 * Math.log(2), sigma: Math.sqrt(Math.log(2)) }
 */
export function lognormalParameters(options: { readonly mean: number; readonly cv: number }): {
  readonly mu: number;
  readonly sigma: number;
} {
  const { mean, cv } = options;
  requireParameter(mean > 0 && mean < Infinity, 'lognormal', 'mean', mean, 'a finite number above 0');
  requireParameter(cv > 0 && cv <= 100, 'lognormal', 'cv', cv, 'above 0 and at most 100');
  const sigma2 = Math.log1p(cv * cv);
  return { mu: Math.log(mean) - 0.5 * sigma2, sigma: Math.sqrt(sigma2) };
}
