import { requireParameter } from '../errors/index.js';
import { gammaCdf, gammaQuantile } from '../numerics/index.js';
import { type Distribution, invertible } from './distribution.js';

/**
 * The gamma distribution: shape = 1 / cv^2, scale = mean cv^2.
 *
 * Drawn by inverting the distribution function, about 1 microsecond a draw: one uniform number for each value keeps
 * paired runs in step, which the faster rejection methods do not.
 *
 * @param options.mean above 0
 * @param options.cv above 0.001, at most 10
 * @throws ParameterError when a parameter is out of range
 * @example
 * gamma({ mean: 4, cv: 0.5 }).variance // => 4
 */
export function gamma(options: { readonly mean: number; readonly cv: number }): Distribution {
  const { mean, cv } = options;
  requireParameter(cv >= 0.001 && cv <= 10, 'gamma', 'cv', cv, 'from 0.001 to 10');
  return gammaFamily('gamma', mean, 1 / (cv * cv));
}

/** A gamma distribution by its shape, shared with the Erlang family. */
export function gammaFamily(family: 'gamma' | 'erlang', mean: number, shape: number): Distribution {
  requireParameter(mean > 0 && mean < Infinity, family, 'mean', mean, 'a finite number above 0');
  const scale = mean / shape;
  return invertible({
    family,
    mean,
    variance: (mean * mean) / shape,
    cdf: (x) => (x <= 0 ? 0 : gammaCdf(x / scale, shape)),
    quantile: (p) => scale * gammaQuantile(p, shape),
  });
}
