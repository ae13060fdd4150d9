import { requireParameter } from '../errors/index.js';
import { logGamma } from '../numerics/index.js';
import { type Distribution, invertible } from './distribution.js';

/**
 * Times to failure that know their age: shape above 1 wears out, below 1 fails early, 1 is exponential.
 *
 * P(X > x) = exp(-(x / scale)^shape); mean = scale Gamma(1 + 1/shape),
 * variance = scale^2 (Gamma(1 + 2/shape) - Gamma(1 + 1/shape)^2). NIST/SEMATECH e-Handbook of Statistical Methods,
 * 1.3.6.6.8.
 *
 * @param options give `scale` (above 0) and `shape` (0.1 to 1000), or `mean` (above 0) and `cv` (0.002 to 100)
 * @throws ParameterError when a parameter is out of range
 * @example
 * weibull({ scale: 2, shape: 1 }).mean // => 2
 * @example
 * weibull({ mean: 5, cv: 1 }).cdf(5).toFixed(9) // => (1 - Math.exp(-1)).toFixed(9)
 */
export function weibull(
  options:
    { readonly scale: number; readonly shape: number } | { readonly mean: number; readonly cv: number },
): Distribution {
  const { scale, shape } = weibullParameters(options);
  requireParameter(scale > 0 && scale < Infinity, 'weibull', 'scale', scale, 'a finite number above 0');
  requireParameter(shape >= 0.1 && shape <= 1000, 'weibull', 'shape', shape, 'from 0.1 to 1000');
  const g1 = logGamma(1 + 1 / shape);
  const relativeVariance = Math.expm1(logGamma(1 + 2 / shape) - 2 * g1);
  const mean = scale * Math.exp(g1);
  return invertible({
    family: 'weibull',
    mean,
    variance: mean * mean * relativeVariance,
    cdf: (x) => (x <= 0 ? 0 : -Math.expm1(-((x / scale) ** shape))),
    quantile: (p) => scale * (-Math.log1p(-p)) ** (1 / shape),
  });
}

/**
 * Scale and shape of a Weibull distribution, however it is given.
 *
 * @throws ParameterError when mean or cv is out of range
 * @example
 * Number(weibullParameters({ mean: 5, cv: 1 }).shape.toFixed(9)) // => 1
 */
export function weibullParameters(
  options:
    { readonly scale: number; readonly shape: number } | { readonly mean: number; readonly cv: number },
): { readonly scale: number; readonly shape: number } {
  return 'scale' in options ? options : fromMeanAndCv(options.mean, options.cv);
}

/** Solves cv^2 = Gamma(1 + 2/k) / Gamma(1 + 1/k)^2 - 1 for the shape k by bisection; the right side falls with k. */
function fromMeanAndCv(mean: number, cv: number): { readonly scale: number; readonly shape: number } {
  requireParameter(mean > 0 && mean < Infinity, 'weibull', 'mean', mean, 'a finite number above 0');
  requireParameter(cv >= 0.002 && cv <= 100, 'weibull', 'cv', cv, 'from 0.002 to 100');
  const target = Math.log1p(cv * cv);
  let low = 0.1;
  let high = 1000;
  for (let i = 0; i < 100 && high - low > 1e-15 * high; i++) {
    const middle = Math.sqrt(low * high);
    if (logGamma(1 + 2 / middle) - 2 * logGamma(1 + 1 / middle) > target) low = middle;
    else high = middle;
  }
  const shape = Math.sqrt(low * high);
  return { shape, scale: mean / Math.exp(logGamma(1 + 1 / shape)) };
}
