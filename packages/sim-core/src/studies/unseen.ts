import { MEASURES, measureIndex } from '../experiments/index.js';
import { fullHours, type ShowSpec } from '../model/spec/index.js';
import { type Estimate, proportionSequence } from '../statistics/index.js';
import { measureEstimate } from './measureEstimate.js';

/** Whether a measure counts what happens in some shows only. */
function isOccasional(measure: string): boolean {
  const spread = MEASURES[measureIndex(measure)]?.spread;
  return spread !== 'mean' && spread !== 'share';
}

/** Whether a thing that happens in some shows only was seen in none of these. */
export function isUnseen(measure: string, values: readonly number[]): boolean {
  return isOccasional(measure) && values.every((value) => value === 0);
}

/**
 * The difference of two loops on a thing that was seen in no show of either: no more below zero than the upper limit of the
 * first, no more above it than that of the second. Each is exact at 1 - alpha / 2, so that both together hold with
 * 1 - alpha (Bonferroni), however the two hang together. Of balls that fall many at a time there is no such limit: how many
 * fall at once cannot be learnt from shows in which none did.
 *
 * Looked at again and again, a share is at most that of shows with any, by the limit that holds at all looks.
 *
 * @param pair the values of both, show by show, all 0
 * @param shows of both
 */
export function unseenDifference(
  measure: string,
  [first, second]: readonly [readonly number[], readonly number[]],
  shows: readonly [ShowSpec, ShowSpec],
  confidence: number,
  looked: boolean,
): Estimate {
  const limits = [first, second].map((values, i) =>
    looked
      ? byShowsWithAny(measure, values.length, confidence)
      : measureEstimate(measure, values, { show: shows[i] as ShowSpec, confidence }).high,
  );
  const [below = null, above = null] = limits;
  const known = below !== null && above !== null;
  return {
    mean: 0,
    low: known ? 0 - below : null,
    high: known ? above : null,
    confidence,
    replications: first.length,
  };
}

/** An upper limit that holds at all looks together, one of two; null where there is none. */
function byShowsWithAny(measure: string, shows: number, confidence: number): number | null {
  return MEASURES[measureIndex(measure)]?.kind === 'share'
    ? proportionSequence(0, shows, (1 + confidence) / 2).high
    : null;
}

/**
 * About how many shows without any it takes until the difference of two shares lies within a margin for sure: the exact
 * limit of a share of which nothing was seen in n is 1 - alpha^(1 / n). Null for what is no share, or without a margin.
 */
export function showsToBoundUnseen(
  measure: string,
  show: ShowSpec,
  margin: number,
  confidence: number,
): number | null {
  const { spread, kind } = MEASURES[measureIndex(measure)] ?? {};
  if (kind !== 'share' || margin <= 0 || margin >= 1) return null;
  const trials = Math.ceil(Math.log(1 - confidence) / Math.log1p(-margin));
  return spread === 'hours' ? Math.ceil(trials / Math.max(1, fullHours(show))) : trials;
}
