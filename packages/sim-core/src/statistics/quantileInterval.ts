import { quantileSorted } from 'simple-statistics';
import { binomialCdf } from '../numerics/index.js';
import type { Estimate } from './estimate.js';
import { requireChance, requireCount } from './requireNumbers.js';

/** Which of the sorted values bound a quantile. */
export interface QuantileRanks {
  /** From 1; 0 when there is no lower limit. */
  readonly lower: number;
  /** Up to n; n + 1 when there is no upper limit. */
  readonly upper: number;
  /** Chance that the quantile lies between them, for values that vary continuously. */
  readonly coverage: number;
}

/**
 * Ranks of the sorted values that bound a quantile, whatever the distribution of the values.
 *
 * With B binomial (n, share): `lower` is the largest l with P(B <= l - 1) <= alpha/2, `upper` the smallest u with
 * P(B >= u) <= alpha/2, and the coverage P(lower <= B <= upper - 1) (Conover 1999, Practical Nonparametric Statistics,
 * 3rd ed., 3.2; Hahn & Meeker 1991, Statistical Intervals; both from memory).
 *
 * @param n number of values, from 1
 * @param share which quantile, such as 0.5 for the median; above 0 and below 1
 * @param confidence above 0 and below 1
 * @throws ParameterError when a number is out of range
 * @example
 * quantileRanks(10, 0.5, 0.95).upper // => 9
 */
export function quantileRanks(n: number, share: number, confidence: number): QuantileRanks {
  requireCount(n, 1, 'quantileRanks', 'n');
  requireChance(share, 'quantileRanks', 'share');
  requireChance(confidence, 'quantileRanks', 'confidence');
  const tail = (1 - confidence) / 2;
  const atMost = (k: number): number => binomialCdf(k, n, share);
  // P(B >= u) from the other side, as a lower tail: 1 - P(B <= u - 1) would lose digits.
  const atLeast = (u: number): number => binomialCdf(n - u, n, 1 - share);
  const lower = firstWhere(0, n + 1, (l) => atMost(l) > tail);
  const upper = firstWhere(1, n + 1, (u) => atLeast(u) <= tail);
  return { lower, upper, coverage: 1 - atMost(lower - 1) - atLeast(upper) };
}

/**
 * A quantile with limits that hold whatever the distribution: two of the sorted values (see {@link quantileRanks}).
 *
 * @param values at least one, finite, in any unit; left as they are
 * @param share which quantile, such as 0.95; above 0 and below 1
 * @param confidence above 0 and below 1; the limits hold at least as often
 * @returns under `mean` the sample's quantile (linear interpolation, as {@link sampleSummary}); a limit is null when no
 *   value is far enough out to be one
 * @throws ParameterError when there are no values, or a number is out of range
 * @example
 * quantileInterval([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], 0.5, 0.95).low // => 2
 */
export function quantileInterval(
  values: readonly number[] | Float64Array,
  share: number,
  confidence: number,
): Estimate {
  requireCount(values.length, 1, 'quantileInterval', 'values.length');
  const { lower, upper } = quantileRanks(values.length, share, confidence);
  const sorted = Float64Array.from(values).sort() as unknown as number[];
  return {
    mean: quantileSorted(sorted, share),
    low: sorted[lower - 1] ?? null,
    high: sorted[upper - 1] ?? null,
    confidence,
    replications: values.length,
  };
}

/**
 * The median with limits that hold whatever the distribution (see {@link quantileInterval}).
 *
 * @throws ParameterError when there are no values, or the confidence is out of range
 * @example
 * medianInterval([7, 1, 9, 3, 5, 8, 2, 6, 4, 10], 0.95).high // => 9
 */
export function medianInterval(values: readonly number[] | Float64Array, confidence: number): Estimate {
  return quantileInterval(values, 0.5, confidence);
}

/**
 * How many values it takes until the largest of them lies above a quantile for sure enough: the smallest n with
 * 1 - share^n >= confidence (Wilks 1941, Annals of Mathematical Statistics 12, 91-96, from memory).
 *
 * @throws ParameterError when a number is not above 0 and below 1
 * @example
 * valuesToBoundQuantile(0.95, 0.95) // => 59
 */
export function valuesToBoundQuantile(share: number, confidence: number): number {
  requireChance(share, 'valuesToBoundQuantile', 'share');
  requireChance(confidence, 'valuesToBoundQuantile', 'confidence');
  return Math.max(1, Math.ceil(Math.log1p(-confidence) / Math.log(share)));
}

/** The first whole number from `from` at which a condition that then stays true is true; `to` if it never is. */
function firstWhere(from: number, to: number, holds: (k: number) => boolean): number {
  let low = from;
  let high = to;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}
