import {
  areAlike,
  type Estimate,
  type Moments,
  momentsOf,
  ofAlike,
  pairedDifference,
  type PairedDifference,
  proportionSequence,
  RARE,
} from '../statistics/index.js';

/**
 * Difference of two columns, show by show with the same luck (see `pairedDifference`). When it was the same in all pairs
 * there is an interval, without width, only where it is certain or others are rare for sure (see `isRare`).
 *
 * @param certain that neither column can vary, see `isCertain`
 * @example
 * const before = [1, 5, 3], after = [3, 7, 5];
 * [pairedOverShows(before, after, 0.95, false).difference.low, pairedOverShows(before, after, 0.95, true).difference.low] // => [null, 2]
 */
export function pairedOverShows(
  before: readonly number[],
  after: readonly number[],
  confidence: number,
  certain: boolean,
): PairedDifference {
  const found = pairedDifference(before, after, confidence);
  const size = Math.max(...[before, after].map((column) => Math.abs(momentsOf(column).mean)));
  if (!areAlike(found.variance, size)) return found;
  const difference = ofAlike(found.difference, certain);
  const alike = { ...found, difference, pairWorth: null };
  return difference.low === null ? { ...alike, standardError: null, degrees: null, t: null, p: null } : alike;
}

/**
 * Mean of values that are all the same, with an interval that may be looked at after every show: without width where the
 * value is certain or others are rare for sure at all looks together (see `proportionSequence`); else none.
 *
 * @param certain that the value cannot vary, see `isCertain`
 */
export function alikeSequence({ mean, count }: Moments, confidence: number, certain: boolean): Estimate {
  const others = proportionSequence(0, count, confidence).high ?? 1;
  const limit = certain || others <= RARE ? mean : null;
  return { mean, low: limit, high: limit, confidence, replications: count };
}
