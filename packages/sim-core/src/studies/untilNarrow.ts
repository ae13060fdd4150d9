import { requireParameter } from '../errors/index.js';
import { isCertain, MEASURES, measureIndex } from '../experiments/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import {
  areAlike,
  type Estimate,
  meanSequence,
  momentsOf,
  proportionSequence,
  quantileInterval,
} from '../statistics/index.js';
import { measureEstimate } from './measureEstimate.js';
import { alikeSequence } from './overShows.js';
import type { Study } from './study.js';
import { system } from './system.js';
import { isUnseen } from './unseen.js';

/** How narrow an interval is to be: half its width, in the measure's own unit or as a share of the estimate. */
export type Narrowness = { readonly absolute: number } | { readonly relative: number };

/** One measure of the shows that were enough, or all there were. */
export interface NarrowedMeasure {
  readonly measure: string;
  readonly estimate: Estimate;
  /** What nine shows in ten stay below (above, where more is better), between two of the sorted shows. */
  readonly nine_in_ten: Estimate;
}

/** What it took. */
export interface UntilNarrow {
  readonly on: string;
  readonly asked: Narrowness;
  /** Whether the interval is as narrow as asked; when not, the cap was reached first. */
  readonly narrow: boolean;
  readonly replications: number;
  readonly at_most: number;
  /** The measure asked about, with an interval that holds at every look that was taken. */
  readonly estimate: Estimate;
  /** About how many shows it would take in all; null when it is narrow, or nothing can be said. */
  readonly would_take: number | null;
  /** All measures, with the intervals of a run of so many shows. */
  readonly measures: readonly NarrowedMeasure[];
}

export interface UntilNarrowOptions {
  /** @default spills_per_hour */
  readonly on?: string;
  readonly within: Narrowness;
  /** @default 1000 */
  readonly atMost?: number;
  /** @default 0.95 */
  readonly confidence?: number;
}

/** Shows before the first look, and between looks. */
const FIRST_LOOK = 30;
const LOOK_EVERY = 10;
const NINE_IN_TEN = 0.9;

/**
 * Simulates shows until the interval of a measure is as narrow as asked, or the cap is reached.
 *
 * It looks after 30, 40, 50 ... shows. Stopping when Student's interval happens to be narrow would err more often than it
 * says; the interval used here holds at all looks together (see `meanSequence`, and `proportionSequence` for the share of
 * shows in which something happens), so that it holds whenever it stops.
 *
 * @throws ParameterError when an option cannot be used
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * (await untilNarrow(study, exampleLoop, { on: 'throughput_bps', within: { relative: 0.5 }, atMost: 40 })).narrow // => true
 */
export async function untilNarrow(
  study: Study,
  spec: LoopSpec,
  options: UntilNarrowOptions,
): Promise<UntilNarrow> {
  const { on = 'spills_per_hour', within, atMost = 1000, confidence = 0.95 } = options;
  const asked = 'absolute' in within ? within.absolute : within.relative;
  requireParameter(asked > 0 && asked < Infinity, 'untilNarrow', 'within', asked, 'a finite number above 0');
  requireParameter(
    Number.isSafeInteger(atMost) && atMost >= 2,
    'untilNarrow',
    'atMost',
    atMost,
    'a whole number from 2',
  );
  const loop = system('as it is', spec);
  let done = 0;
  study.expect([loop], Math.min(FIRST_LOOK, atMost));
  for (;;) {
    const look = Math.min(atMost, done === 0 ? FIRST_LOOK : done + LOOK_EVERY);
    await study.simulate([loop], look - done, done);
    done = look;
    const estimate = sequence(on, study.column(loop, on, done), atMost, confidence, isCertain(on, spec));
    const goal = goalOf(within, estimate);
    const half = halfOf(estimate);
    const narrow = half !== null && half <= goal;
    const wouldTake = narrow || half === null || goal <= 0 ? null : Math.ceil(done * (half / goal) ** 2);
    if (!narrow && done < atMost) {
      study.expect([loop], Math.min(atMost, Math.max(wouldTake ?? 0, done + LOOK_EVERY)));
      continue;
    }
    const measures = MEASURES.map(({ id, better }): NarrowedMeasure => {
      const values = study.column(loop, id, done);
      const there = values.filter((value) => Number.isFinite(value));
      return {
        measure: id,
        estimate: measureEstimate(id, values, { show: spec.show, confidence, certain: isCertain(id, spec) }),
        nine_in_ten:
          there.length === 0
            ? { mean: null, low: null, high: null, confidence, replications: 0 }
            : quantileInterval(there, better === 'more' ? 1 - NINE_IN_TEN : NINE_IN_TEN, confidence),
      };
    });
    return {
      on,
      asked: within,
      narrow,
      replications: done,
      at_most: atMost,
      estimate,
      would_take: wouldTake,
      measures,
    };
  }
}

/** The interval that may be looked at again and again. */
function sequence(
  on: string,
  values: readonly number[],
  atMost: number,
  confidence: number,
  certain: boolean,
): Estimate {
  const there = values.filter((value) => Number.isFinite(value));
  const moments = momentsOf(there);
  // What was seen in no show may be anything in those in which it comes.
  const known = certain || !isUnseen(on, there);
  if (known && areAlike(moments.variance, Math.abs(moments.mean)))
    return alikeSequence(moments, confidence, certain);
  if (MEASURES[measureIndex(on)]?.spread === 'shows')
    return proportionSequence(there.filter((value) => value > 0).length, there.length, confidence);
  // Tightest between the first look and the cap, whatever the values turn out to be.
  return meanSequence(moments, Math.sqrt(FIRST_LOOK * Math.max(FIRST_LOOK, atMost)), confidence, FIRST_LOOK);
}

function goalOf(within: Narrowness, { mean }: Estimate): number {
  return 'absolute' in within ? within.absolute : within.relative * Math.abs(mean ?? 0);
}

function halfOf({ low, high }: Estimate): number | null {
  return low === null || high === null ? null : (high - low) / 2;
}
