import { MEASURES, measureIndex } from '../experiments/index.js';
import { sessionsOf, type ShowSpec } from '../model/spec/index.js';
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
 * The mean of a measure over shows of one loop, with the interval that fits the measure: for shares of hours the exact
 * binomial limits at the effective number of hours, for shares of shows those of Clopper and Pearson, for balls that fall
 * many at a time the limits of clumped rates, for stops and pulls those of a Poisson count when there were few, and else
 * Student's t.
 *
 * @param values one for each show; shows with nothing to measure (NaN) are left out
 * @example
 * const show = { seconds: 6 * 3600, warmUpSeconds: 0 };
 * measureEstimate('spill_hour_share', Array(10).fill(0), { show, confidence: 0.95 }).high.toFixed(4) // => '0.0756'
 */
export function measureEstimate(
  measure: string,
  values: readonly number[],
  context: MeasureContext,
): Estimate {
  const { show, confidence, worst = 0 } = context;
  const moments = momentsOf(values);
  switch (measure) {
    case 'spill_hour_share': {
      const hours = fullHours(show);
      return hours > 0 ? clusteredProportion(moments, hours, confidence) : meanInterval(moments, confidence);
    }
    case 'spill_show_share': {
      const { count, mean } = moments;
      if (count < 2) return meanInterval(moments, confidence);
      const limits = clopperPearson(Math.round(mean * count), count, confidence);
      return { mean, ...limits, confidence, replications: count };
    }
    case 'spills_per_hour':
    case 'lost_per_hour': {
      const seen = values.filter((value) => value > 0).length;
      const found = clumpedRateInterval(moments, seen, confidence);
      if (found.high !== null || moments.count < 2 || worst === 0) return found;
      return { ...found, high: clopperPearson(0, moments.count, confidence).high * worst };
    }
    case 'stops_per_hour':
      return eventRateInterval(moments, (show.seconds - show.warmUpSeconds) / 3600, confidence);
    case 'pulls_per_show':
      return eventRateInterval(moments, 1, confidence);
    default: {
      const share = MEASURES[measureIndex(measure)]?.kind === 'share';
      return meanInterval(moments, confidence, { min: 0, ...(share && { max: 1 }) });
    }
  }
}

/**
 * Full public hours of a show, counted from the beginning of each session or the end of the warm-up.
 *
 * @example
 * fullHours({ seconds: 3 * 3600, warmUpSeconds: 600 }) // => 2
 */
export function fullHours(show: ShowSpec): number {
  return sessionsOf(show).reduce((hours, { fromSeconds, toSeconds }) => {
    const begin = Math.max(fromSeconds, show.warmUpSeconds);
    // As the simulator counts them: an hour may fall short by rounding.
    return hours + Math.max(0, Math.floor((toSeconds - begin) / 3600 + 1e-9));
  }, 0);
}
