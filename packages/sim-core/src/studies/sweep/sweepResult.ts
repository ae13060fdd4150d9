import type { HouseRule } from '../../experiments/index.js';
import type { Estimate } from '../../statistics/index.js';
import type { Criterion } from './enough.js';
import type { VariedThing } from './varied.js';

/** What is known of one value. */
export type ValueVerdict =
  /** For sure on the right side of the limit; or enough: for sure no other value gains more than the margin on it. */
  | 'yes'
  /** For sure on the wrong side of the limit; or for sure worse by more than the margin than the value recommended, or the best. */
  | 'no'
  /** Judged with fresh shows, which were not enough to tell. */
  | 'undecided'
  /** Further on the side that costs more than it takes. */
  | 'more than it takes'
  /** Not needed for the decision. */
  | 'not judged';

/** A measure with its estimate. */
export interface MeasureEstimate {
  readonly measure: string;
  readonly estimate: Estimate;
}

/** One value that was tried. */
export interface SweepValue {
  readonly value: number;
  readonly measures: readonly MeasureEstimate[];
  readonly verdict: ValueVerdict;
  /** With a limit, of a value not kept for sure: the measure by which it is not; else null. */
  readonly decided_by: string | null;
  /** Shows that the estimates rest on: fresh ones when it was judged. */
  readonly shows: number;
}

/** Another value beside the recommended one. */
export interface SweepStep {
  readonly value: number;
  /** The measure that decides, or the one by which this value is not surely enough. */
  readonly measure: string;
  /** What it gains by that measure against the recommended one, good news counted positive, show by show. */
  readonly gain: Estimate;
}

/** What a sweep recommends and why. */
export interface Recommendation {
  /** With a limit the furthest value that keeps it for sure; else the one furthest on the cheap side that is enough. */
  readonly form: 'limit' | 'enough';
  readonly limit: number | null;
  readonly margin: number | null;
  /** Other measures by which it must be enough too; with a limit, against what there is now. */
  readonly also: readonly Criterion[];
  /** With a limit: rules of the house; a value that surely breaks one is not recommended. */
  readonly rules: readonly HouseRule[];
  /** Whether as much or as little as will do is looked for. */
  readonly want: 'most' | 'least';
  /** Null when no value can be recommended for sure. */
  readonly recommended: number | null;
  /** The last value that way was reached, so that what lies beyond is not known. */
  readonly at_the_end: boolean;
  /** Of all others the one that may gain most; null without a recommendation, and with a limit. */
  readonly rival: SweepStep | null;
  /** The first on the cheap side that is not surely enough; null without a recommendation, and with a limit. */
  readonly next: SweepStep | null;
}

/** A sweep: the same loop with one thing varied, and the value to take. */
export interface Sweep extends Recommendation {
  readonly thing: VariedThing;
  /** The value as it is; null when that is not one number. */
  readonly today: number | null;
  readonly on: string;
  /** As it is now, with the shows of the values that were judged. */
  readonly now: readonly MeasureEstimate[];
  /** What to type at other commands to get the recommended value; empty when nothing typed does. */
  readonly changes: readonly string[];
  /** By rising value. */
  readonly values: readonly SweepValue[];
}

/** A recommendation with what is known of each value. */
export interface Judgement {
  readonly recommendation: Recommendation;
  readonly verdictOf: (value: number) => ValueVerdict;
  readonly decidedBy: (value: number) => string | null;
}
