import { MEASURES, type Measure, measureIndex } from '../experiments/index.js';
import {
  briefPhrase,
  estimatePhrase,
  intervalPhrase,
  type Kind,
  KINDS,
  meanPhrase,
} from '../findings/index.js';
import type { Estimate } from '../statistics/index.js';

/** How one measure of shows is put into words. */
export interface MeasureWords {
  readonly measure: Measure;
  readonly kind: Kind;
  readonly title: string;
  readonly mean: (estimate: Estimate) => string;
  readonly interval: (estimate: Estimate) => string;
  readonly estimate: (estimate: Estimate) => string;
  /** Mean and interval for a column of a table. */
  readonly brief: (estimate: Estimate) => string;
  /** A bare value, to the digits of the estimate it is compared with. */
  readonly value: (value: number, like: Estimate) => string;
}

/**
 * The words for a measure.
 *
 * @param id as in MEASURES
 * @example
 * measureWords('spills_per_hour').title // => 'balls spilled'
 */
export function measureWords(id: string): MeasureWords {
  const measure = MEASURES[measureIndex(id)] as Measure;
  const kind: Kind = KINDS[measure.kind];
  return {
    measure,
    kind,
    title: measure.title,
    mean: (estimate) => meanPhrase(estimate, kind),
    interval: (estimate) => intervalPhrase(estimate, kind),
    estimate: (estimate) => estimatePhrase(estimate, kind),
    brief: (estimate) => briefPhrase(estimate, kind),
    value: (value, like) => meanPhrase({ ...like, mean: value }, kind),
  };
}

/** A sentence begins with a capital letter. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
