import {
  buildDistribution,
  type DistributionSpec,
  lognormalParameters,
  stretched,
  weibullParameters,
} from '../distributions/index.js';
import { gammaQuantile, normalQuantile } from '../numerics/index.js';
import type { Note, UniformFor } from './drawing.js';

/** Two or three values may leave almost anything open: a drawn spread is no larger than this, or than the figure's own. */
const MOST_SPREAD = 2;
const SHAPES = { min: 0.1, max: 1000 };

/**
 * Draws a distribution of times from what n values leave open of it; the distribution given is taken as the one of maximum
 * likelihood. Every value 0 or 1 short of two leaves the spread at its word; with n = 0 nothing is drawn at all.
 *
 * - lognormal: the logarithms are normal, with the reference prior: sigma'^2 = n sigma^2 / chi-square(n - 1), mu' = mu +
 *   z sigma' / sqrt(n) (Gelman et al. 2013, Bayesian Data Analysis, 3rd ed., 3.2, from memory).
 * - normal and gamma: cv'^2 = n cv^2 / chi-square(n - 1) in the same way, mean' = mean exp(z cv' / sqrt(n)), by the delta
 *   method on the logarithm, so that it stays above 0.
 * - exponential and Erlang with k stages: mean' = mean n k / Gamma(n k), exactly.
 * - Weibull: see `drawWeibull`.
 * - all else: the shape at its word, stretched by exp(z cv / sqrt(n)). A constant time is known.
 *
 * @param name of the parameter; its spread is `${name} spread`
 * @param n values behind it, whole, from 0
 * @example
 * drawTime({ family: 'exponential', mean: 60 }, 'clear:jam', 1, () => Math.exp(-1), () => {}).mean.toFixed(6) // => '60.000000'
 */
export function drawTime(
  spec: DistributionSpec,
  name: string,
  n: number,
  uniform: UniformFor,
  note: Note,
): DistributionSpec {
  if (n <= 0 || spec.family === 'constant') return spec;
  const drawn = (mean: number): void => note(name, mean);
  const z = (): number => normalQuantile(uniform(name)) / Math.sqrt(n);
  // Of a spread s: n s^2 / chi-square with n - 1 degrees of freedom, a larger uniform number for a larger spread.
  const spreadOf = (figure: number): number => {
    if (n < 2) return figure;
    const chiSquare = 2 * gammaQuantile(1 - uniform(`${name} spread`), (n - 1) / 2);
    const spread = Math.min(Math.max(MOST_SPREAD, figure), figure * Math.sqrt(n / chiSquare));
    note(`${name} spread`, spread);
    return spread;
  };
  switch (spec.family) {
    case 'lognormal': {
      const { mu, sigma } = lognormalParameters(spec);
      const spread = spreadOf(sigma);
      const mean = Math.exp(mu + spread * z() + spread ** 2 / 2);
      drawn(mean);
      return { family: 'lognormal', mean, cv: Math.sqrt(Math.expm1(spread ** 2)) };
    }
    case 'normal':
    case 'gamma': {
      const cv = Math.max(spreadOf(spec.cv), 0.0011);
      const mean = spec.mean * Math.exp(cv * z());
      drawn(mean);
      return { family: spec.family, mean, cv };
    }
    case 'exponential':
    case 'erlang': {
      const stages = n * (spec.family === 'erlang' ? spec.stages : 1);
      const mean = (spec.mean * stages) / gammaQuantile(1 - uniform(name), stages);
      drawn(mean);
      return { ...spec, mean };
    }
    case 'weibull':
      return drawWeibull(spec, name, n, uniform, note);
    default: {
      const { mean, variance } = buildDistribution(spec);
      const by = Math.exp((Math.sqrt(variance) / mean) * z());
      if (!(mean > 0)) return spec;
      drawn(by * mean);
      return stretched(spec, by);
    }
  }
}

/**
 * Draws a Weibull distribution from what n failures leave open of it.
 *
 * Shape: ln k' = ln k + z sqrt(0.6079 / n), the asymptotic variance 6 / pi^2 / n of the logarithm of the shape. Scale, given
 * that shape: (time)^k' is exponential, so scale' = s (n / Gamma(n))^(1/k'), exactly if k' is the shape, with ln s = ln
 * scale + (1 - 0.5772) (1/k - 1/k'), the best scale for that shape. Together they have the asymptotic covariances of maximum
 * likelihood, 1.1087 / (n k^2) for the logarithm of the scale and 0.2570 / (n k) for both (Johnson, Kotz & Balakrishnan 1994,
 * Continuous Univariate Distributions vol. 1, 2nd ed., ch. 21, from memory). With one failure the shape is taken at its word.
 *
 * @param n failures, from 1
 * @example
 * drawWeibull({ family: 'weibull', scale: 100, shape: 2 }, 'wear', 1, () => 0.5, () => {}).shape // => 2
 */
export function drawWeibull(
  spec: DistributionSpec & { readonly family: 'weibull' },
  name: string,
  n: number,
  uniform: UniformFor,
  note: Note,
): DistributionSpec & { readonly family: 'weibull' } {
  const { scale, shape: k } = weibullParameters(spec);
  let shape = k;
  if (n >= 2) {
    const z = normalQuantile(uniform(`${name} spread`));
    shape = k * Math.exp((z * Math.sqrt(6 / n)) / Math.PI);
    shape = Math.min(SHAPES.max, Math.max(SHAPES.min, shape));
    note(`${name} spread`, shape);
  }
  const best = Math.log(scale) + (1 - EULER) * (1 / k - 1 / shape);
  const drawn = Math.exp(best + Math.log(n / gammaQuantile(1 - uniform(name), n)) / shape);
  note(name, drawn);
  return { family: 'weibull', scale: drawn, shape };
}

const EULER = 0.5772156649015329;
