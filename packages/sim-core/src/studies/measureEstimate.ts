import { MEASURES, measureIndex } from '../experiments/index.js';
import { fullHours, type ShowSpec } from '../model/spec/index.js';
import {
  clumpedRateInterval,
  clusteredProportion,
  type Estimate,
  eventRateInterval,
  meanInterval,
  momentsOf,
} from '../statistics/index.js';

/** What an interval of a measure needs to know besides the values. */
export interface MeasureContext {
  readonly show: ShowSpec;
  /** Chance that the interval holds the true value. */
  readonly confidence: number;
}

/**
 * The mean of a measure over shows of one loop, with the interval that fits the measure: for shares of hours or shows the
 * exact binomial limits at the effective number of them, for balls that fall many at a time the limits of clumped rates
 * (no upper one when none was seen: that a show with any is no worse than so much cannot be learnt from such shows),
 * for stops and pulls those of a Poisson count when there were few, and else Student's t.
 *
 * @param id as in MEASURES
 * @param values one for each show; shows with nothing to measure (NaN) are left out
 * @example
 * const show = { seconds: 6 * 3600, warmUpSeconds: 0 };
 * measureEstimate('spill_hour_share', Array(10).fill(0), { show, confidence: 0.95 }).high.toFixed(4) // => '0.0756'
 */
export function measureEstimate(id: string, values: readonly number[], context: MeasureContext): Estimate {
  const { show, confidence } = context;
  const there = values.filter((value) => Number.isFinite(value));
  const moments = momentsOf(there);
  switch (MEASURES[measureIndex(id)]?.spread) {
    case 'shows':
      return clusteredProportion(moments, 1, confidence);
    case 'hours': {
      const hours = fullHours(show);
      return hours > 0 ? clusteredProportion(moments, hours, confidence) : meanInterval(moments, confidence);
    }
    case 'clumps':
      return clumpedRateInterval(moments, there.filter((value) => value > 0).length, confidence);
    case 'events':
      return eventRateInterval(moments, (show.seconds - show.warmUpSeconds) / 3600, confidence);
    case 'events of a show':
      return eventRateInterval(moments, 1, confidence);
    case 'share':
      return meanInterval(moments, confidence, { min: 0, max: 1 });
    default:
      return meanInterval(moments, confidence, { min: 0 });
  }
}
