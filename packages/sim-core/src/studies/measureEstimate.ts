import { MEASURES, measureIndex } from '../experiments/index.js';
import { fullHours, type LoopSpec } from '../model/spec/index.js';
import {
  clumpedRateInterval,
  clusteredProportion,
  type Estimate,
  meanInterval,
  momentsOf,
} from '../statistics/index.js';

/**
 * The estimate of a measure from its values in independent shows of one loop, by the form that suits the measure: Student's
 * t for means; balls that fall many at a time, and things seen in few shows, as in the result of a run
 * (`clumpedRateInterval`, `clusteredProportion`).
 *
 * @param id as in MEASURES
 * @param values one for each show; those that are not finite are left out: there was nothing to measure
 * @param spec the loop, for the number of its public hours
 * @example
 * measureEstimate('spill_show_share', [0, 0, 0, 0, 0, 0, 0, 0, 0, 0], exampleLoop, 0.95).high.toFixed(4) // => '0.3085'
 */
export function measureEstimate(
  id: string,
  values: readonly number[],
  spec: LoopSpec,
  confidence: number,
): Estimate {
  const moments = momentsOf(values.filter((value) => Number.isFinite(value)));
  switch (MEASURES[measureIndex(id)]?.spread) {
    case 'shows':
      return clusteredProportion(moments, 1, confidence);
    case 'hours':
      return clusteredProportion(moments, Math.max(1, fullHours(spec.show)), confidence);
    case 'clumps':
      return clumpedRateInterval(moments, values.filter((value) => value > 0).length, confidence);
    case 'share':
      return meanInterval(moments, confidence, { min: 0, max: 1 });
    default:
      return meanInterval(moments, confidence, { min: 0 });
  }
}
