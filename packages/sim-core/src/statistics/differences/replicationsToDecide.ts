import { requireParameter } from '../../errors/index.js';
import { studentTQuantile } from '../../numerics/index.js';
import type { Moments } from '../moments.js';
import { requireChance } from '../requireNumbers.js';

/** More than anybody will simulate: the answer is then that no number would do. */
const MOST = 1e9;

/**
 * How many more pairs it would take until {@link verdictOfDifference} has a verdict, if the mean and variance of the
 * differences stay what they are: a plan, not a promise, since the true mean may well lie nearer to zero or the margin.
 *
 * The smallest N with t(1 - alpha/2, N - 1) s / sqrt(N) < |mean| (the interval leaves out zero) or
 * t(1 - alpha, N - 1) s / sqrt(N) <= margin - |mean| (the interval at 1 - 2 alpha lies within the margin), less the pairs
 * there are (the usual sample size of a t interval: Law 2015, Simulation Modeling and Analysis, 5th ed., 9.4.1, from
 * memory).
 *
 * @param differences moments of the differences, pair by pair
 * @param margin differences up to this do not matter, in the unit of the differences, from 0
 * @param confidence 1 - alpha, above 0.5 and below 1
 * @returns 0 when it is decided; null with fewer than two pairs, and when more than 10^9 would be needed
 * @throws ParameterError when the margin or the confidence is out of range
 * @example
 * replicationsToDecide(momentsOf([-1, 0, 2, 3]), 0, 0.95) // => 12
 */
export function replicationsToDecide(
  differences: Pick<Moments, 'count' | 'mean' | 'variance'>,
  margin: number,
  confidence: number,
): number | null {
  requireParameter(
    margin >= 0 && margin < Infinity,
    'replicationsToDecide',
    'margin',
    margin,
    'a finite number from 0',
  );
  requireChance(confidence, 'replicationsToDecide', 'confidence');
  requireParameter(
    confidence > 0.5,
    'replicationsToDecide',
    'confidence',
    confidence,
    'above 0.5 and below 1',
  );
  const { count, mean, variance } = differences;
  if (count < 2) return null;
  const alpha = 1 - confidence;
  const half = (n: number, tail: number): number =>
    variance > 0 ? studentTQuantile(1 - tail, n - 1) * Math.sqrt(variance / n) : 0;
  const decided = (n: number): boolean =>
    half(n, alpha / 2) < Math.abs(mean) || half(n, alpha) <= margin - Math.abs(mean);
  if (decided(count)) return 0;
  let many = count;
  while (!decided(many)) {
    many *= 2;
    if (many > MOST) return null;
  }
  let few = many / 2;
  // Both half widths only shrink as n grows, so the first n that decides is found by halving.
  while (many - few > 1) {
    const middle = Math.floor((few + many) / 2);
    if (decided(middle)) many = middle;
    else few = middle;
  }
  return many - count;
}
