import { requireParameter } from '../errors/index.js';
import { normalCdf, normalQuantile } from '../numerics/index.js';
import { type Distribution, invertible } from './distribution.js';

/**
 * The normal distribution with everything below zero cut away (and the rest scaled up to probability one).
 *
 * `mean` and `cv` are those before the cut. With m = mean, s = cv m, a = -m/s and h = phi(a) / (1 - Phi(a)):
 * mean after the cut = m + s h, variance after the cut = s^2 (1 + a h - h^2). Johnson, Kotz & Balakrishnan, Continuous
 * Univariate Distributions vol. 1, 2nd ed., section 13.10.1 (from memory). At cv 0.25 the cut changes the mean by less
 * than 0.004 %.
 *
 * @param options.mean above 0
 * @param options.cv above 0, at most 10
 * @throws ParameterError when a parameter is out of range
 * @example
 * Number(normalCutAtZero({ mean: 3.6, cv: 0.1 }).quantile(0.5).toFixed(9)) // => 3.6
 */
export function normalCutAtZero(options: { readonly mean: number; readonly cv: number }): Distribution {
  const { mean, cv } = options;
  requireParameter(mean > 0 && mean < Infinity, 'normal', 'mean', mean, 'a finite number above 0');
  requireParameter(cv > 0 && cv <= 10, 'normal', 'cv', cv, 'above 0 and at most 10');
  const sd = cv * mean;
  const start = -1 / cv;
  const below = normalCdf(start);
  const above = normalCdf(-start);
  const hazard = Math.exp(-0.5 * start * start) / Math.sqrt(2 * Math.PI) / above;
  return invertible({
    family: 'normal',
    mean: mean + sd * hazard,
    variance: sd * sd * (1 + start * hazard - hazard * hazard),
    cdf: (x) => (x <= 0 ? 0 : 1 - normalCdf((mean - x) / sd) / above),
    quantile: (p) => {
      if (p <= 0) return 0;
      // In the upper half count from the top, where below + p above would lose digits.
      const z = p < 0.5 ? normalQuantile(below + p * above) : -normalQuantile((1 - p) * above);
      return Math.max(0, mean + sd * z);
    },
  });
}
