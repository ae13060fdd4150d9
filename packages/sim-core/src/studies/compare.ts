import { requireParameter } from '../errors/index.js';
import { isCertain, MEASURES, measureIndex } from '../experiments/index.js';
import {
  areAlike,
  type DifferenceVerdict,
  equivalence,
  type Estimate,
  meanSequence,
  type Moments,
  meanOverShows,
  momentsOf,
  replicationsToDecide,
  replicationsUntilRare,
  verdictOfDifference,
} from '../statistics/index.js';
import { measureEstimate } from './measureEstimate.js';
import { alikeSequence, pairedOverShows } from './overShows.js';
import type { Study } from './study.js';
import type { System } from './system.js';
import { isUnseen, showsToBoundUnseen, unseenDifference } from './unseen.js';

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
  /** Pairs of shows. */
  readonly replications: number;
  /** Whether it was looked at on the way; the interval of the difference that decides then allows for every look. */
  readonly looked_early: boolean;
  /** When undecided: about how many more pairs it would take; null when decided, or when no number would do. */
  readonly more_replications: number | null;
}

/** How two systems are to be compared. */
export interface CompareOptions {
  /** Pairs of shows; at most, when it may stop early. */
  readonly replications: number;
  /** Stop as soon as it is clear. @default false */
  readonly stopWhenClear?: boolean;
  /** The measure that decides. @default spills_per_hour */
  readonly on?: string;
  /** In the measure's own unit, or as a share of the mean before. @default { relative: 0.05 } */
  readonly margin?: number | { readonly absolute: number } | { readonly relative: number };
  /** @default 0.95 */
  readonly confidence?: number;
}

/** What does not matter, as a share of the mean before, unless said otherwise. */
const MARGIN_SHARE = 0.05;

const DECIDES = 'spills_per_hour';
const CONFIDENCE = 0.95;

/** Pairs before the first look of a comparison that may stop early, and between looks. */
const FIRST_LOOK = 30;
const LOOK_EVERY = 10;

/**
 * Compares two systems over the same shows (see `pairedDifference`, `equivalence` and `verdictOfDifference`): "better" or
 * "worse" when the interval of the difference leaves out zero, "no difference that matters" when it lies within the margin.
 *
 * What happens in some shows only and was seen in none of either is not called "no difference": its share of hours or
 * shows has limits all the same, how many balls fall at once has none. Pairs that all differ by the same are known when that
 * is certain by the scenario, or when there are so many that others are rare for sure (see `meanOverShows`).
 *
 * With `stopWhenClear` it looks after 30, 40, 50 ... pairs and stops when there is a verdict. The interval of the
 * difference that decides is then one that holds at all looks together (see `meanSequence`), wider than Student's.
 *
 * @throws ParameterError when an option cannot be used
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const loop = system('as it is', exampleLoop);
 * (await compare(study, loop, loop, { replications: 3 })).verdict // => 'no difference that matters'
 */
export async function compare(
  study: Study,
  before: System,
  after: System,
  options: CompareOptions,
): Promise<Comparison> {
  const { replications, stopWhenClear = false } = options;
  requireParameter(
    Number.isSafeInteger(replications) && replications >= 2,
    'compare',
    'replications',
    replications,
    'a whole number from 2',
  );
  study.expect([before, after], replications);
  let done = 0;
  for (;;) {
    const next = stopWhenClear ? (done === 0 ? FIRST_LOOK : done + LOOK_EVERY) : replications;
    const look = Math.min(next, replications);
    await study.simulate([before, after], look - done, done);
    done = look;
    const decision = decisionOf(study, before, after, done, options);
    if (done === replications || decision.found !== 'undecided')
      return comparisonOf(study, before, after, done, options, decision);
  }
}

/** What is known of the measure that decides. */
interface Decision {
  readonly found: DifferenceVerdict;
  readonly decisive: Estimate;
  readonly margin: number;
  /** About how many more pairs it would take; null when no number would do. */
  readonly more: number | null;
}

function decisionOf(
  study: Study,
  before: System,
  after: System,
  count: number,
  {
    on = DECIDES,
    confidence = CONFIDENCE,
    stopWhenClear = false,
    replications,
    margin: given,
  }: CompareOptions,
): Decision {
  const first = study.column(before, on, count);
  const second = study.column(after, on, count);
  const there = first.filter((value) => Number.isFinite(value));
  const margin = marginOf(given, there.length === 0 ? 0 : Math.abs(momentsOf(there).mean));
  requireParameter(margin >= 0 && margin < Infinity, 'compare', 'margin', margin, 'a finite number from 0');
  const differences = momentsOf(differencesOf(first, second));
  const certain = isSure(on, before, after);
  if (!certain && isUnseen(on, first) && isUnseen(on, second)) {
    const limits = (chance: number): Estimate =>
      unseenDifference(on, [first, second], [before.spec.show, after.spec.show], chance, stopWhenClear);
    const decisive = limits(confidence);
    // Two one-sided tests: at 1 - 2 alpha, but not when it is looked at more than once.
    const within = stopWhenClear ? decisive : limits(2 * confidence - 1);
    const found = verdictOfDifference(decisive, margin, within);
    const needed = showsToBoundUnseen(on, before.spec.show, margin, confidence);
    return { found, decisive, margin, more: needed === null ? null : needed - count };
  }
  const alike = areAlike(differences.variance, Math.abs(momentsOf(first).mean));
  const more = alike
    ? replicationsUntilRare(confidence) - differences.count
    : replicationsToDecide(differences, margin, confidence);
  if (stopWhenClear) {
    const decisive = sequence(differences, replications, confidence, { alike, certain });
    return { found: verdictOfDifference(decisive, margin), decisive, margin, more };
  }
  const paired = pairedOverShows(first, second, confidence, certain);
  const within = equivalence(paired, margin, 1 - confidence).interval;
  const found = verdictOfDifference(paired.difference, margin, within);
  return { found, decisive: paired.difference, margin, more };
}

function comparisonOf(
  study: Study,
  before: System,
  after: System,
  count: number,
  { on = DECIDES, confidence = CONFIDENCE, stopWhenClear = false }: CompareOptions,
  { found, decisive, margin, more }: Decision,
): Comparison {
  const measures = MEASURES.map(({ id }): MeasureDifference => {
    const first = study.column(before, id, count);
    const second = study.column(after, id, count);
    const plain = measureDifference(id, first, second, confidence, isSure(id, before, after));
    const estimate = ({ spec }: System, values: readonly number[]): Estimate =>
      measureEstimate(id, values, { show: spec.show, confidence, certain: isCertain(id, spec) });
    return {
      ...plain,
      before: estimate(before, first),
      after: estimate(after, second),
      difference: id === on ? possible(on, decisive) : plain.difference,
    };
  });
  return {
    measures,
    on,
    margin,
    verdict: inWords(found, on),
    replications: count,
    looked_early: stopWhenClear,
    // Looked at often, it takes more than at once.
    more_replications: found === 'undecided' ? atLeastOne(more) : null,
  };
}

/** Whether the difference of two systems is the same in every show, by their scenarios. */
function isSure(on: string, before: System, after: System): boolean {
  return before.key === after.key || [before, after].every(({ spec }) => isCertain(on, spec));
}

function atLeastOne(more: number | null): number | null {
  return more === null ? null : Math.max(1, more);
}

function marginOf(given: CompareOptions['margin'], before: number): number {
  if (given === undefined) return MARGIN_SHARE * before;
  if (typeof given === 'number') return given;
  return 'absolute' in given ? given.absolute : given.relative * before;
}

/** The interval for many looks; pairs that all differ by the same are taken at their word when others are rare for sure. */
function sequence(
  differences: Moments,
  planned: number,
  confidence: number,
  { alike, certain }: { readonly alike: boolean; readonly certain: boolean },
): Estimate {
  if (!alike) return meanSequence(differences, planned, confidence, FIRST_LOOK);
  return alikeSequence(differences, confidence, certain);
}

/**
 * One measure of paired shows; shows in which either has nothing to measure are left out.
 *
 * @param certain that neither can vary from show to show, by the scenario @default false
 * @example
 * measureDifference('loop_time_s', [700, 720], [702, 722], 0.95).difference.mean // => 2
 */
export function measureDifference(
  measure: string,
  before: readonly number[],
  after: readonly number[],
  confidence: number,
  certain = false,
): MeasureDifference {
  const { difference, correlation, pairWorth } = pairedOverShows(before, after, confidence, certain);
  const both = before.map((x, i) => Number.isFinite(x) && Number.isFinite(after[i] ?? NaN));
  const mean = (column: readonly number[]): Estimate =>
    meanOverShows(momentsOf(column.filter((_, i) => both[i])), confidence, certain, {
      min: 0,
      ...(isShare(measure) && { max: 1 }),
    });
  return {
    measure,
    before: mean(before),
    after: mean(after),
    difference: possible(measure, difference),
    correlation,
    pair_worth: pairWorth,
  };
}

function isShare(measure: string): boolean {
  return MEASURES[measureIndex(measure)]?.kind === 'share';
}

/** An interval of a difference, cut off where it would be beyond what is possible: two shares differ by 1 at most. */
function possible(measure: string, difference: Estimate): Estimate {
  const { low, high } = difference;
  if (!isShare(measure)) return difference;
  return {
    ...difference,
    low: low === null ? null : Math.max(-1, low),
    high: high === null ? null : Math.min(1, high),
  };
}

function differencesOf(before: readonly number[], after: readonly number[]): number[] {
  return before.map((x, i) => (after[i] ?? NaN) - x).filter((value) => Number.isFinite(value));
}

function inWords(found: DifferenceVerdict, on: string): Verdict {
  if (found === 'undecided' || found === 'no difference that matters') return found;
  const more = MEASURES[measureIndex(on)]?.better === 'more';
  return (found === 'higher') === more ? 'better' : 'worse';
}
