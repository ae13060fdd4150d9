import { requireParameter } from '../errors/index.js';
import { type Distribution, invertible } from './distribution.js';

/**
 * Memoryless: how long is left does not depend on how long it has lasted. Times between chance events.
 *
 * P(X > x) = exp(-x / mean); variance = mean^2.
 *
 * @param options.mean above 0
 * @throws ParameterError when the mean is not a finite number above 0
 * @example
 * exponential({ mean: 900 }).cdf(900) // => 1 - Math.exp(-1)
 */
export function exponential(options: { readonly mean: number }): Distribution {
  const { mean } = options;
  requireParameter(mean > 0 && mean < Infinity, 'exponential', 'mean', mean, 'a finite number above 0');
  return invertible({
    family: 'exponential',
    mean,
    variance: mean * mean,
    cdf: (x) => (x <= 0 ? 0 : -Math.expm1(-x / mean)),
    quantile: (p) => -mean * Math.log1p(-p),
  });
}
