import { type Moments } from '../moments.js';
import { requireChance } from '../requireNumbers.js';
import { type Difference, noDifference, studentDifference } from './difference.js';

/**
 * Difference of the means of two independent columns (after minus before), of any lengths and with any spreads.
 *
 * Welch's t: standard error sqrt(u + v) with u = s_1^2 / n_1, v = s_2^2 / n_2, and (u + v)^2 / (u^2 / (n_1 - 1) +
 * v^2 / (n_2 - 1)) degrees of freedom (Welch 1947, Biometrika 34, 28-35; Satterthwaite 1946, Biometrics Bulletin 2,
 * 110-114, from memory). Not for replications that share their random numbers: see {@link pairedDifference}.
 *
 * @param before values in any unit, one for each replication
 * @param after values in the same unit
 * @param confidence above 0 and below 1
 * @returns no interval when a column has fewer than two values
 * @throws ParameterError when the confidence is out of range
 * @example
 * const { difference, degrees } = welchDifference(momentsOf([1, 2, 3]), momentsOf([4, 6, 8]), 0.95);
 * [difference.mean, degrees.toFixed(2)] // => [4, '2.94']
 */
export function welchDifference(before: Moments, after: Moments, confidence: number): Difference {
  requireChance(confidence, 'welchDifference', 'confidence');
  const replications = before.count + after.count;
  const mean = after.mean - before.mean;
  if (before.count < 2 || after.count < 2)
    return noDifference(Number.isNaN(mean) ? null : mean, confidence, replications);
  const u = before.variance / before.count;
  const v = after.variance / after.count;
  // Without spread any degrees will do: the interval has no width.
  const degrees =
    u + v > 0 ? (u + v) ** 2 / (u ** 2 / (before.count - 1) + v ** 2 / (after.count - 1)) : replications - 2;
  return studentDifference({ mean, standardError: Math.sqrt(u + v), degrees, replications }, confidence);
}
