import type { Bounds, Estimate } from './estimate.js';
import { meanInterval } from './meanInterval.js';
import type { Moments } from './moments.js';
import { areAlike, ofAlike } from './rare.js';

/**
 * Mean over shows with Student's t interval. When all shows had the same value there is an interval, without width, only
 * where the value is certain or others are rare for sure (see `isRare`): that a few shows are alike does not say that all are.
 *
 * @param certain that the value cannot vary, by the scenario
 * @example
 * meanOverShows(momentsOf([3, 3]), 0.95, false).high // => null
 */
export function meanOverShows(
  moments: Moments,
  confidence: number,
  certain: boolean,
  bounds: Bounds = {},
): Estimate {
  const estimate = meanInterval(moments, confidence, bounds);
  return areAlike(moments.variance, Math.abs(moments.mean)) ? ofAlike(estimate, certain) : estimate;
}
