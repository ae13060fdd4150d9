import { MEASURES, measureIndex } from '../experiments/index.js';
import { fullHours, type ShowSpec } from '../model/spec/index.js';
import {
  clopperPearson,
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
  /**
   * Of balls spilled or lost: when no show saw any, a show that does is taken to be no worse than this, in the unit of
   * the measure; without it there is then no upper limit.
   */
  readonly worst?: number;
}

/**
 * The mean of a measure over shows of one loop, with the interval that fits the measure: for shares of hours or shows the
 * exact binomial limits at the effective number of them, for balls that fall many at a time the limits of clumped rates,
 * for stops and pulls those of a Poisson count when there were few, and else Student's t.
 *
 * @param id as in MEASURES
 * @param values one for each show; shows with nothing to measure (NaN) are left out
 * @example
 * const show = { seconds: 6 * 3600, warmUpSeconds: 0 };
 * measureEstimate('spill_hour_share', Array(10).fill(0), { show, confidence: 0.95 }).high.toFixed(4) // => '0.0756'
 */
export function measureEstimate(id: string, values: readonly number[], context: MeasureContext): Estimate {
  const { show, confidence, worst = 0 } = context;
  const there = values.filter((value) => Number.isFinite(value));
  const moments = momentsOf(there);
  switch (MEASURES[measureIndex(id)]?.spread) {
    case 'shows':
      return clusteredProportion(moments, 1, confidence);
    case 'hours': {
      const hours = fullHours(show);
      return hours > 0 ? clusteredProportion(moments, hours, confidence) : meanInterval(moments, confidence);
    }
    case 'clumps': {
      const found = clumpedRateInterval(moments, there.filter((value) => value > 0).length, confidence);
      if (found.high !== null || moments.count < 2 || worst === 0) return found;
      return { ...found, high: clopperPearson(0, moments.count, confidence).high * worst };
    }
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
