import type { HouseRule } from '../../experiments/index.js';
import {
  clopperPearson,
  clumpedRateInterval,
  clusteredProportion,
  type Estimate,
  isRare,
  meanOverShows,
  momentsOf,
  RARE,
} from '../../statistics/index.js';

/** Whether a rule of the house is kept: for sure, for sure not, or not to be told from these shows. */
export type RuleVerdict = 'kept' | 'broken' | 'open';

/**
 * The figure that a rule limits, over shows, with the interval that suits it: of a share of hours that of a clustered
 * proportion (Korn & Graubard 1998), of spilled balls the one for balls that fall many at a time, of all else Student's t.
 *
 * @param values one for each show; those that are not finite had nothing to measure and are left out
 * @param hours full public hours of a show
 * @param certain that it cannot vary from show to show, by the scenario @default false
 * @example
 * const rule = { name: 'longest_lap', measure: 'loop_time_p95_s', side: 'at most', limit: 900 };
 * ruleEstimate(rule, [800, 820, 840], 6, 0.95).mean // => 820
 */
export function ruleEstimate(
  { measure }: HouseRule,
  values: readonly number[],
  hours: number,
  confidence: number,
  certain = false,
): Estimate {
  const moments = momentsOf(values);
  const mean = (): Estimate => meanOverShows(moments, confidence, certain, { min: 0 });
  if (certain && moments.count > 1) return mean();
  switch (measure) {
    case 'spill_hour_share':
      return hours >= 1
        ? clusteredProportion(moments, hours, confidence)
        : { mean: null, low: null, high: null, confidence, replications: 0 };
    case 'spills_per_hour': {
      const seen = values.filter((value) => value > 0).length;
      return seen === moments.count ? mean() : clumpedRateInterval(moments, seen, confidence);
    }
    default:
      return mean();
  }
}

/**
 * Whether a whole interval lies on the right side of the limit. Spills of which none was seen in any show have no upper
 * limit: how many balls would fall at once, if ever, cannot be learnt from shows without any. They count as within a limit
 * above 0 when shows with any are rare for sure (see `isRare`). Shows with nothing to measure speak against it unless they
 * are rare for sure: where no ball came round, no lap was short.
 *
 * @param shows with those that had nothing to measure @default those of the estimate
 * @example
 * const rule = { name: 'longest_lap', measure: 'loop_time_p95_s', side: 'at most', limit: 900 };
 * surelyKept(rule, { mean: 820, low: 770, high: 870, confidence: 0.95, replications: 3 }) // => true
 */
export function surelyKept(
  { side, limit }: HouseRule,
  estimate: Estimate,
  shows: number = estimate.replications,
): boolean {
  const { low, high, replications, confidence } = estimate;
  if (isMissing(estimate, shows)) return false;
  if (side === 'at least') return low !== null && low >= limit;
  if (isUnlimited(estimate)) return limit > 0 && isRare(replications, confidence);
  return high !== null && high <= limit;
}

/** Whether more than a few shows may have nothing to measure, when some had not. */
export function isMissing({ replications, confidence }: Estimate, shows: number): boolean {
  const missing = shows - replications;
  return missing > 0 && clopperPearson(missing, shows, confidence).high > RARE;
}

/** Whether nothing was seen of what has no upper limit then. */
export function isUnlimited({ mean, low, high }: Estimate): boolean {
  return mean === 0 && low === 0 && high === null;
}

/**
 * Whether a whole interval lies beyond the limit.
 *
 * @example
 * const rule = { name: 'least_throughput', measure: 'throughput_bps', side: 'at least', limit: 0.9 };
 * surelyBroken(rule, { mean: 0.85, low: 0.84, high: 0.86, confidence: 0.95, replications: 30 }) // => true
 */
export function surelyBroken({ side, limit }: HouseRule, { low, high }: Estimate): boolean {
  return side === 'at most' ? low !== null && low > limit : high !== null && high < limit;
}

/**
 * How much of its limit a value uses up: 1 at the limit, more beyond it. Of a rule that says "at least" it is limit over
 * value.
 *
 * @example
 * usedUp({ name: 'least_throughput', measure: 'throughput_bps', side: 'at least', limit: 0.9 }, 1.8) // => 0.5
 */
export function usedUp({ side, limit }: HouseRule, value: number): number {
  const [part, whole] = side === 'at most' ? [value, limit] : [limit, value];
  if (whole === 0) return part === 0 ? 0 : Infinity;
  return part / whole;
}

/**
 * How far a value lies beyond the limit, in the unit of the measure; negative within it.
 *
 * @example
 * beyond({ name: 'least_throughput', measure: 'throughput_bps', side: 'at least', limit: 0.75 }, 1) // => -0.25
 */
export function beyond({ side, limit }: HouseRule, value: number): number {
  return side === 'at most' ? value - limit : limit - value;
}
