import { gammaQuantile, normalQuantile } from '../../numerics/index.js';
import type { Limits } from '../counts/limits.js';
import { momentsOf } from '../moments.js';
import { requireChance, requireCount } from '../requireNumbers.js';

/**
 * Limits of the coefficient of variation (standard deviation over mean), by the family the values come from.
 *
 * Lognormal: exact, from chi-square limits of the variance of the logarithms, cv = sqrt(exp(s^2) - 1). Normal: the chi-square
 * limits as mended by McKay 1932 and Vangel 1996 (The American Statistician 50, 21-26, from memory). Any other: by the
 * spread of ln cv in large samples, (kurtosis - 1) / 4 + cv^2 - skewness x cv over n (delta method); rough below 30 values.
 *
 * @param values at least three, above 0, not all the same
 * @throws ParameterError when there are fewer than three values
 * @example
 * const { low, high } = cvInterval([9, 10, 11, 10, 9, 11], 'normal', 0.95);
 * low > 0.05 && high < 0.25 // => true
 */
export function cvInterval(
  values: readonly number[],
  family: 'lognormal' | 'normal' | 'any',
  confidence: number,
): Limits {
  requireChance(confidence, 'cvInterval', 'confidence');
  requireCount(values.length, 3, 'cvInterval', 'values.length');
  const tail = (1 - confidence) / 2;
  const free = values.length - 1;
  const least = 2 * gammaQuantile(tail, free / 2);
  const most = 2 * gammaQuantile(1 - tail, free / 2);
  if (family === 'lognormal') {
    const { variance } = momentsOf(values.map((value) => Math.log(value)));
    const cv = (chi: number): number => Math.sqrt(Math.expm1((free * variance) / chi));
    return { low: cv(most), high: cv(least) };
  }
  const { count, mean, variance } = momentsOf(values);
  const cv = Math.sqrt(variance) / mean;
  if (family === 'normal') {
    const limit = (chi: number): number => cv / Math.sqrt(((chi + 2) / count - 1) * cv * cv + chi / free);
    return { low: limit(most), high: limit(least) };
  }
  const central = (power: number): number =>
    values.reduce((sum, value) => sum + ((value - mean) / Math.sqrt(variance)) ** power, 0) / count;
  const spread = Math.max(0, (central(4) - 1) / 4 + cv * cv - central(3) * cv) / count;
  const factor = Math.exp(normalQuantile(1 - tail) * Math.sqrt(spread));
  return { low: cv / factor, high: cv * factor };
}
