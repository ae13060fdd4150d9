import { studentTQuantile } from '../../numerics/index.js';
import type { Limits } from '../counts/limits.js';
import { momentsOf } from '../moments.js';
import { requireChance, requireCount } from '../requireNumbers.js';

/**
 * Limits of the mean of values with a tail of long ones, as if they were lognormal: with y and s^2 the mean and variance of
 * the logarithms, exp(y + s^2 / 2 +- t(n - 1) sqrt(s^2 / n + s^4 / (2 (n - 1)))), Cox's method with Student's t (Olsson
 * 2005, Journal of Statistics Education 13(1), from memory). Student's t interval of the values themselves holds the mean
 * too seldom when values are few.
 *
 * @param values at least two, above 0
 * @throws ParameterError when there are fewer than two values
 * @example
 * const { low, high } = lognormalMean([20, 40, 60, 180], 0.95);
 * low < 75 && high > 200 // => true
 */
export function lognormalMean(values: readonly number[], confidence: number): Limits {
  requireChance(confidence, 'lognormalMean', 'confidence');
  requireCount(values.length, 2, 'lognormalMean', 'values.length');
  const { count, mean, variance } = momentsOf(values.map((value) => Math.log(value)));
  const middle = mean + variance / 2;
  const half =
    studentTQuantile(0.5 + confidence / 2, count - 1) *
    Math.sqrt(variance / count + (variance * variance) / (2 * (count - 1)));
  return { low: Math.exp(middle - half), high: Math.exp(middle + half) };
}
