import { MEASURES, measureIndex } from '../experiments/index.js';
import { fullHours, type ShowSpec } from '../model/spec/index.js';
import {
  clumpedRateInterval,
  clusteredProportion,
  type Estimate,
  eventRateInterval,
  meanOverShows,
  momentsOf,
} from '../statistics/index.js';

/** What an interval of a measure needs to know besides the values. */
export interface MeasureContext {
  readonly show: ShowSpec;
  /** Chance that the interval holds the true value. */
  readonly confidence: number;
  /** That the measure cannot vary from show to show, by the scenario. @default false */
  readonly certain?: boolean;
}

/**
 * The mean of a measure over shows of one loop, with the interval that fits the measure: for shares of hours or shows the
 * exact binomial limits at the effective number of them, for balls that fall many at a time the limits of clumped rates
 * (no upper one when none was seen: that a show with any is no worse than so much cannot be learnt from such shows),
 * for stops and pulls those of a Poisson count when there were few, and else Student's t. What cannot vary is known from
 * any show; other values that are all the same have an interval only when there are many of them (see `meanOverShows`).
 *
 * @param id as in MEASURES
 * @param values one for each show; shows with nothing to measure (NaN) are left out
 * @example
 * const show = { seconds: 6 * 3600, warmUpSeconds: 0 };
 * measureEstimate('spill_hour_share', Array(10).fill(0), { show, confidence: 0.95 }).high.toFixed(4) // => '0.0756'
 */
export function measureEstimate(id: string, values: readonly number[], context: MeasureContext): Estimate {
  const { show, confidence, certain = false } = context;
  const there = values.filter((value) => Number.isFinite(value));
  const moments = momentsOf(there);
  const mean = (bounds: { readonly min: number; readonly max?: number }): Estimate =>
    meanOverShows(moments, confidence, certain, bounds);
  if (certain) return mean({ min: 0 });
  switch (MEASURES[measureIndex(id)]?.spread) {
    case 'shows':
      return clusteredProportion(moments, 1, confidence);
    case 'hours': {
      const hours = fullHours(show);
      return hours > 0 ? clusteredProportion(moments, hours, confidence) : mean({ min: 0 });
    }
    case 'clumps': {
      const seen = there.filter((value) => value > 0).length;
      return seen === there.length ? mean({ min: 0 }) : clumpedRateInterval(moments, seen, confidence);
    }
    case 'events':
      return ofEvents((show.seconds - show.warmUpSeconds) / 3600);
    case 'events of a show':
      return ofEvents(1);
    case 'share':
      return mean({ min: 0, max: 1 });
    default:
      return mean({ min: 0 });
  }

  /** Few events have the limits of a Poisson count, which allow for what the next show may bring; many have Student's. */
  function ofEvents(hours: number): Estimate {
    const estimate = eventRateInterval(moments, hours, confidence);
    return estimate.low === estimate.high ? mean({ min: 0 }) : estimate;
  }
}
