import type { HouseRule } from '../../experiments/index.js';
import {
  clumpedRateInterval,
  clusteredProportion,
  type Estimate,
  meanInterval,
  momentsOf,
} from '../../statistics/index.js';

/** Whether a rule of the house is kept: for sure, for sure not, or not to be told from these shows. */
export type RuleVerdict = 'kept' | 'broken' | 'open';

/**
 * The figure that a rule limits, over shows, with the interval that suits it: of a share of hours that of a clustered
 * proportion (Korn & Graubard 1998), of spilled balls the one for balls that fall many at a time, of all else Student's t.
 *
 * @param values one for each show; those that are not finite had nothing to measure and are left out
 * @param hours full public hours of a show
 * @example
 * const rule = { name: 'longest_lap', measure: 'loop_time_p95_s', side: 'at most', limit: 900 };
 * ruleEstimate(rule, [800, 820, 840], 6, 0.95).mean // => 820
 */
export function ruleEstimate(
  { measure }: HouseRule,
  values: readonly number[],
  hours: number,
  confidence: number,
): Estimate {
  const moments = momentsOf(values);
  switch (measure) {
    case 'spill_hour_share':
      return hours >= 1
        ? clusteredProportion(moments, hours, confidence)
        : { mean: null, low: null, high: null, confidence, replications: 0 };
    case 'spills_per_hour':
      return clumpedRateInterval(moments, values.filter((value) => value > 0).length, confidence);
    default:
      return meanInterval(moments, confidence, { min: 0 });
  }
}

/**
 * Whether a whole interval lies on the right side of the limit. Spills of which none was seen in any show count as within
 * every limit: how many balls would fall at once, if ever, cannot be learnt from shows without any.
 *
 * @example
 * const rule = { name: 'longest_lap', measure: 'loop_time_p95_s', side: 'at most', limit: 900 };
 * surelyKept(rule, { mean: 820, low: 770, high: 870, confidence: 0.95, replications: 3 }) // => true
 */
export function surelyKept({ side, limit }: HouseRule, { mean, low, high }: Estimate): boolean {
  if (mean === null || low === null) return false;
  if (side === 'at least') return low >= limit;
  return high === null ? mean === 0 : high <= limit;
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
