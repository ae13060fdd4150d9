import { type Estimate, eventRateInterval, meanOverShows, type Moments } from '../statistics/index.js';

/**
 * A rate of single events over shows (see `eventRateInterval`): zero for certain where the scenario rules them out; where
 * there were many, and as many in all shows, without an interval until others are rare for sure.
 *
 * @param options.possible false when the scenario rules such events out
 * @param options.certain that every show is the same, by the scenario
 */
export function eventsOverShows(
  rates: Moments,
  hours: number,
  confidence: number,
  { possible, certain }: { readonly possible: boolean; readonly certain: boolean },
): Estimate {
  const estimate = eventRateInterval(rates, hours, confidence);
  return !possible || estimate.low === estimate.high
    ? meanOverShows(rates, confidence, certain || !possible, { min: 0 })
    : estimate;
}
