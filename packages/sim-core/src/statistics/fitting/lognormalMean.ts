import { gammaQuantile, studentTQuantile } from '../../numerics/index.js';
import type { Limits } from '../counts/limits.js';
import { momentsOf } from '../moments.js';
import { requireChance, requireCount } from '../requireNumbers.js';

/**
 * Limits of the mean of lognormal values, which have a tail of long ones: those of the mean of the logarithms and of half
 * their variance, put together by the distances recovered from each (Zou, Taleban & Huo 2009, Statistics in Medicine 28,
 * 3755-3766, from memory, with Student's t in place of the normal quantile). Student's t interval of the values themselves
 * holds the mean too seldom when values are few.
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
  const tail = (1 - confidence) / 2;
  const free = count - 1;
  const t2 = studentTQuantile(1 - tail, free) ** 2 * (variance / count);
  const half = variance / 2;
  const less = half * (1 - free / (2 * gammaQuantile(1 - tail, free / 2)));
  const more = half * (free / (2 * gammaQuantile(tail, free / 2)) - 1);
  return {
    low: Math.exp(mean + half - Math.sqrt(t2 + less * less)),
    high: Math.exp(mean + half + Math.sqrt(t2 + more * more)),
  };
}
