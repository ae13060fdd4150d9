import { requireParameter } from '../errors/index.js';
import { type Distribution, invertible } from './distribution.js';

/**
 * The measured values themselves, each as likely as it was seen: for times taken from a bench log.
 *
 * The quantile is the inverse of the stepwise distribution function (type 1 of Hyndman & Fan 1996, The American
 * Statistician 50, 361-365), so that only measured values are drawn; mean and variance are those of that
 * distribution (variance divided by n, not n - 1).
 *
 * @param options.values at least one, each 0 or more
 * @throws ParameterError when there is no value, or one is negative or not finite
 * @example
 * empirical({ values: [3.4, 3.6, 4.1, 3.6] }).quantile(0.75) // => 3.6
 */
export function empirical(options: { readonly values: readonly number[] }): Distribution {
  const sorted = Float64Array.from(options.values).sort();
  const n = sorted.length;
  requireParameter(n > 0, 'empirical', 'values', options.values, 'a list of at least one value');
  for (const value of options.values) {
    requireParameter(value >= 0 && value < Infinity, 'empirical', 'values', value, 'finite numbers from 0');
  }
  const mean = sorted.reduce((sum, value) => sum + value, 0) / n;
  const at = (index: number): number => sorted[Math.min(n - 1, Math.max(0, index))] ?? NaN;
  return invertible({
    family: 'empirical',
    mean,
    variance: sorted.reduce((sum, value) => sum + (value - mean) ** 2, 0) / n,
    cdf: (x) => countUpTo(sorted, x) / n,
    quantile: (p) => at(Math.ceil(p * n - 1e-12 * n) - 1),
  });
}

/** How many of the sorted values are at most x. */
function countUpTo(sorted: Float64Array, x: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? NaN) <= x) low = middle + 1;
    else high = middle;
  }
  return low;
}
