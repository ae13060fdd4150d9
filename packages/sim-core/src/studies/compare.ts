import { sampleCorrelation } from 'simple-statistics';
import { requireParameter } from '../errors/index.js';
import { MEASURES, measureIndex } from '../experiments/index.js';
import { type Estimate, meanInterval, Moments } from '../statistics/index.js';
import type { Study } from './study.js';
import type { System } from './system.js';

/** What a comparison comes to. */
export type Verdict = 'better' | 'worse' | 'no difference that matters' | 'undecided';

/** One measure of two systems, show by show with the same luck. */
export interface MeasureDifference {
  /** As in {@link MEASURES}. */
  readonly measure: string;
  readonly before: Estimate;
  readonly after: Estimate;
  /** After minus before, with Student's t over the pairs. */
  readonly difference: Estimate;
  /** Between the two over the shows; null when one of them does not vary. */
  readonly correlation: number | null;
  /**
   * How many shows of each, with luck of their own, would have told the difference as sharply as one pair: variance of
   * the difference of independent shows over that of paired ones. Null when the pairs do not differ at all.
   */
  readonly pair_worth: number | null;
}

/** A comparison and its verdict on one measure. */
export interface Comparison {
  readonly measures: readonly MeasureDifference[];
  readonly on: string;
  /** Differences up to this do not matter, in the measure's own unit. */
  readonly margin: number;
  readonly verdict: Verdict;
  /** When undecided: about how many more pairs it would take; null when decided, or when no number would do. */
  readonly more_replications: number | null;
}

/** How two systems are to be compared. */
export interface CompareOptions {
  readonly replications: number;
  /** The measure that decides. @default spills_per_hour */
  readonly on?: string;
  /** @default 5 % of the mean before */
  readonly margin?: number;
  /** @default 0.95 */
  readonly confidence?: number;
}

/** What does not matter, as a share of the mean before, unless said otherwise. */
const MARGIN_SHARE = 0.05;

/**
 * Compares two systems over the same shows: paired t (Student 1908, Biometrika 6, 1-25), and for "no difference that
 * matters" two one-sided tests (Schuirmann 1987, J. Pharmacokin. Biopharm. 15, 657-680): the interval at 1 - 2 alpha lies
 * within the margin. Both from memory.
 *
 * The verdict is "better" or "worse" when the interval at 1 - alpha leaves out zero and the difference is not within the
 * margin for sure.
 *
 * @throws ParameterError when an option cannot be used
 */
export async function compare(
  study: Study,
  before: System,
  after: System,
  options: CompareOptions,
): Promise<Comparison> {
  const { replications, on = 'spills_per_hour', confidence = 0.95 } = options;
  requireParameter(
    Number.isSafeInteger(replications) && replications >= 2,
    'compare',
    'replications',
    replications,
    'a whole number from 2',
  );
  study.expect(2 * replications);
  await study.simulate([before, after], replications);
  const measures = MEASURES.map(({ id }) =>
    measureDifference(
      id,
      study.column(before, id, replications),
      study.column(after, id, replications),
      confidence,
    ),
  );
  const decided = measures[measureIndex(on)] as MeasureDifference;
  const margin = options.margin ?? MARGIN_SHARE * Math.abs(decided.before.mean ?? 0);
  requireParameter(margin >= 0 && margin < Infinity, 'compare', 'margin', margin, 'a finite number from 0');
  const differences = pairs(
    study.column(before, on, replications),
    study.column(after, on, replications),
  ).map(([a, b]) => b - a);
  const narrow = meanInterval(momentsOf(differences), 2 * confidence - 1);
  const verdict = verdictOf(on, decided.difference, narrow, margin);
  return {
    measures,
    on,
    margin,
    verdict,
    more_replications: verdict === 'undecided' ? moreReplications(decided.difference, margin) : null,
  };
}

/** One measure of paired shows; shows in which either has nothing to measure are left out. */
export function measureDifference(
  measure: string,
  before: readonly number[],
  after: readonly number[],
  confidence: number,
): MeasureDifference {
  const both = pairs(before, after);
  const [a, b] = [both.map(([x]) => x), both.map(([, y]) => y)];
  const [first, second, difference] = [momentsOf(a), momentsOf(b), momentsOf(both.map(([x, y]) => y - x))];
  const varies = first.variance > 0 && second.variance > 0;
  return {
    measure,
    before: meanInterval(first, confidence),
    after: meanInterval(second, confidence),
    difference: meanInterval(difference, confidence),
    correlation: varies ? sampleCorrelation(a, b) : null,
    pair_worth: difference.variance > 0 ? (first.variance + second.variance) / difference.variance : null,
  };
}

function verdictOf(on: string, wide: Estimate, narrow: Estimate, margin: number): Verdict {
  if (wide.low === null || wide.high === null || narrow.low === null || narrow.high === null)
    return 'undecided';
  if (narrow.low >= -margin && narrow.high <= margin) return 'no difference that matters';
  const more = MEASURES[measureIndex(on)]?.better === 'more';
  if (wide.low > 0) return more ? 'better' : 'worse';
  if (wide.high < 0) return more ? 'worse' : 'better';
  return 'undecided';
}

/** Pairs until the half width is what is lacking: the distance to zero, or of the difference to the margin. */
function moreReplications({ mean, low, high, replications }: Estimate, margin: number): number | null {
  if (mean === null || low === null || high === null) return null;
  const half = (high - low) / 2;
  const wanted = Math.max(Math.abs(mean), margin - Math.abs(mean));
  if (!(wanted > 0)) return null;
  return Math.max(1, Math.ceil(replications * (half / wanted) ** 2) - replications);
}

function pairs(before: readonly number[], after: readonly number[]): (readonly [number, number])[] {
  return before.flatMap((a, i) => {
    const b = after[i] ?? NaN;
    return Number.isNaN(a) || Number.isNaN(b) ? [] : [[a, b] as const];
  });
}

function momentsOf(values: readonly number[]): Moments {
  const moments = new Moments();
  for (const value of values) moments.add(value);
  return moments;
}
