import type { Estimate } from './estimate.js';
import { clopperPearson } from './proportion.js';

/**
 * What was seen in no show may come in the next one, and what was the same in all shows may be another in the next: how
 * much it would then be cannot be learnt from shows like these. It counts as known all the same when for sure at most this
 * share of shows is any different.
 */
export const RARE = 0.1;

/**
 * Whether something that happened in none of so many replications is rare for sure: by the exact binomial limit (Clopper
 * & Pearson 1934, Biometrika 26, 404-413) it happens in at most 1 of 10.
 *
 * @param replications from 0
 * @param confidence above 0 and below 1
 * @example
 * [isRare(35, 0.95), isRare(36, 0.95)] // => [false, true]
 */
export function isRare(replications: number, confidence: number): boolean {
  return replications > 0 && clopperPearson(0, replications, confidence).high <= RARE;
}

/**
 * How many replications without it {@link isRare} asks for: the limit is 1 - (alpha / 2)^(1 / n).
 *
 * @example
 * replicationsUntilRare(0.95) // => 36
 */
export function replicationsUntilRare(confidence: number): number {
  const near = Math.floor(Math.log((1 - confidence) / 2) / Math.log1p(-RARE));
  return isRare(near, confidence) ? near : near + 1;
}

/** Numbers that differ by less than this share of their size differ by rounding only. */
const ROUNDING = 1e-9;

/** Whether values do not vary, but for rounding; `size` is that of the numbers they were reckoned from. */
export function areAlike(variance: number, size: number): boolean {
  return variance <= (ROUNDING * size) ** 2;
}

/** An estimate from values that were all the same: known when they cannot vary, or when others are rare for sure. */
export function ofAlike(estimate: Estimate, certain: boolean): Estimate {
  return certain || isRare(estimate.replications, estimate.confidence)
    ? estimate
    : { ...estimate, low: null, high: null };
}
