import { sampleCorrelation } from 'simple-statistics';
import { requireParameter } from '../../errors/index.js';
import { momentsOf } from '../moments.js';
import { requireChance } from '../requireNumbers.js';
import { type Difference, noDifference, studentDifference } from './difference.js';

/** A difference over pairs, such as the same show with and without a change. */
export interface PairedDifference extends Difference {
  /** Of the two columns; null when one of them does not vary. */
  readonly correlation: number | null;
  /**
   * How many independent replications of each column tell the difference as sharply as one pair; below 1 when pairing
   * hurts, null when the difference is the same in every pair.
   */
  readonly pairWorth: number | null;
  /** Of the differences, divisor n - 1; NaN with fewer than two pairs. */
  readonly variance: number;
}

/**
 * Difference of two columns, pair by pair (after minus before): the same luck on both sides, so that most of it cancels.
 *
 * Student's t on the differences d_i: mean(d) +- t(n - 1) s_d / sqrt(n) (Student 1908, Biometrika 6, 1-25). One pair is
 * worth (s_before^2 + s_after^2) / s_d^2 independent replications of each: the ratio of the variances of the two
 * estimates (common random numbers: Law 2015, Simulation Modeling and Analysis, 5th ed., 11.2, from memory). Pairs in
 * which a value is not finite are left out: one of the two had nothing to measure.
 *
 * @param before one value for each replication, in any unit
 * @param after as many values, in the same order and unit
 * @param confidence above 0 and below 1
 * @throws ParameterError when the columns differ in length or the confidence is out of range
 * @example
 * const { difference, t } = pairedDifference([10, 20, 30, 40], [11, 23, 32, 46], 0.95);
 * [difference.mean, t.toFixed(3)] // => [3, '2.777']
 */
export function pairedDifference(
  before: readonly number[],
  after: readonly number[],
  confidence: number,
): PairedDifference {
  requireChance(confidence, 'pairedDifference', 'confidence');
  requireParameter(
    after.length === before.length,
    'pairedDifference',
    'after.length',
    after.length,
    `${before.length}, as many values as before`,
  );
  const pairs = before.flatMap((x, i) => {
    const y = after[i] ?? NaN;
    return Number.isFinite(x) && Number.isFinite(y) ? [[x, y] as const] : [];
  });
  const xs = pairs.map(([x]) => x);
  const ys = pairs.map(([, y]) => y);
  const { count, mean, variance } = momentsOf(pairs.map(([x, y]) => y - x));
  if (count < 2) {
    const nothing = noDifference(count === 0 ? null : mean, confidence, count);
    return { ...nothing, correlation: null, pairWorth: null, variance };
  }
  const first = momentsOf(xs).variance;
  const second = momentsOf(ys).variance;
  const standardError = Math.sqrt(variance / count);
  return {
    ...studentDifference({ mean, standardError, degrees: count - 1, replications: count }, confidence),
    correlation: first > 0 && second > 0 ? sampleCorrelation(xs, ys) : null,
    pairWorth: variance > 0 ? (first + second) / variance : null,
    variance,
  };
}
