import { requireParameter } from '../errors/index.js';
import { MEASURES, measureIndex } from '../experiments/index.js';
import {
  type DifferenceVerdict,
  equivalence,
  type Estimate,
  meanInterval,
  meanSequence,
  Moments,
  momentsOf,
  pairedDifference,
  replicationsToDecide,
  verdictOfDifference,
} from '../statistics/index.js';
import { measureEstimate } from './measureEstimate.js';
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
  readonly differences: Moments;
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
  if (before.key !== after.key && isUnseen(on, first) && isUnseen(on, second)) {
    // What may fall in a show that was not simulated cannot be learnt from shows in which nothing did.
    const { count: replications, mean } = differences;
    const decisive = { mean, low: null, high: null, confidence, replications };
    return { found: 'undecided', decisive, margin, differences };
  }
  if (stopWhenClear) {
    const decisive = sequence(differences, replications, confidence);
    return { found: verdictOfDifference(decisive, margin), decisive, margin, differences };
  }
  const paired = pairedDifference(first, second, confidence);
  const within = equivalence(paired, margin, 1 - confidence).interval;
  const found = verdictOfDifference(paired.difference, margin, within);
  return { found, decisive: paired.difference, margin, differences };
}

function comparisonOf(
  study: Study,
  before: System,
  after: System,
  count: number,
  { on = DECIDES, confidence = CONFIDENCE, stopWhenClear = false }: CompareOptions,
  { found, decisive, margin, differences }: Decision,
): Comparison {
  const measures = MEASURES.map(({ id }): MeasureDifference => {
    const first = study.column(before, id, count);
    const second = study.column(after, id, count);
    const plain = measureDifference(id, first, second, confidence);
    return {
      ...plain,
      before: measureEstimate(id, first, { show: before.spec.show, confidence }),
      after: measureEstimate(id, second, { show: after.spec.show, confidence }),
      difference: id === on ? decisive : plain.difference,
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
    more_replications:
      found === 'undecided' && differences.variance > 0
        ? atLeastOne(replicationsToDecide(differences, margin, confidence))
        : null,
  };
}

/** Whether a thing that happens in some shows only was seen in none of these. */
function isUnseen(on: string, values: readonly number[]): boolean {
  const { spread } = MEASURES[measureIndex(on)] ?? {};
  const may = spread === 'clumps' || spread === 'hours' || spread === 'shows';
  return may && values.every((value) => value === 0);
}

function atLeastOne(more: number | null): number | null {
  return more === null ? null : Math.max(1, more);
}

function marginOf(given: CompareOptions['margin'], before: number): number {
  if (given === undefined) return MARGIN_SHARE * before;
  if (typeof given === 'number') return given;
  return 'absolute' in given ? given.absolute : given.relative * before;
}

/** The interval for many looks; pairs that all differ by the same are taken at their word. */
function sequence(differences: Moments, planned: number, confidence: number): Estimate {
  const { count, variance } = differences;
  if (count >= FIRST_LOOK && variance === 0) return meanInterval(differences, confidence);
  return meanSequence(differences, planned, confidence, FIRST_LOOK);
}

/**
 * One measure of paired shows; shows in which either has nothing to measure are left out.
 *
 * @example
 * measureDifference('loop_time_s', [700, 720], [702, 722], 0.95).difference.mean // => 2
 */
export function measureDifference(
  measure: string,
  before: readonly number[],
  after: readonly number[],
  confidence: number,
): MeasureDifference {
  const { difference, correlation, pairWorth } = pairedDifference(before, after, confidence);
  const both = before.map((x, i) => Number.isFinite(x) && Number.isFinite(after[i] ?? NaN));
  const mean = (column: readonly number[]): Estimate =>
    meanInterval(momentsOf(column.filter((_, i) => both[i])), confidence);
  return {
    measure,
    before: mean(before),
    after: mean(after),
    difference,
    correlation,
    pair_worth: pairWorth,
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
