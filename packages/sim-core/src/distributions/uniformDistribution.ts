import { requireParameter } from '../errors/index.js';
import { type Distribution, invertible } from './distribution.js';

/**
 * Any value between `min` and `max`, all equally likely.
 *
 * mean = (min + max) / 2, variance = (max - min)^2 / 12.
 *
 * @param options.min 0 or more
 * @param options.max above `min`
 * @throws ParameterError when the limits are out of order or negative
 * @example
 * uniformDistribution({ min: 2, max: 6 }).quantile(0.25) // => 3
 */
export function uniformDistribution(options: { readonly min: number; readonly max: number }): Distribution {
  const { min, max } = options;
  requireParameter(min >= 0, 'uniform', 'min', min, 'a number from 0');
  requireParameter(max > min && max < Infinity, 'uniform', 'max', max, `a finite number above min (${min})`);
  const width = max - min;
  return invertible({
    family: 'uniform',
    mean: (min + max) / 2,
    variance: (width * width) / 12,
    cdf: (x) => Math.min(1, Math.max(0, (x - min) / width)),
    quantile: (p) => min + width * p,
  });
}
