import { clusteredProportion, type Moments } from '../statistics/index.js';
import type { OverflowRisk } from './runResult.js';
import { unlessImpossible } from './unlessImpossible.js';

/**
 * The chance of a spill, from the shares of hours and of shows with one.
 *
 * @param options.hours full public hours of a show
 * @param options.possible false when the scenario rules spills out
 */
export function overflowRisk(
  hourShares: Moments,
  showShares: Moments,
  options: { readonly hours: number; readonly confidence: number; readonly possible: boolean },
): OverflowRisk {
  const { hours, confidence, possible } = options;
  return {
    hour: hours > 0 ? unlessImpossible(clusteredProportion(hourShares, hours, confidence), possible) : null,
    show: unlessImpossible(clusteredProportion(showShares, 1, confidence), possible),
  };
}
