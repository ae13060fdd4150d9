import { mean, median, medianAbsoluteDeviation } from 'simple-statistics';
import type { ModuleRecord } from '../logs/index.js';
import type { Timed } from '../statistics/index.js';
import { runningTime } from './runningTime.js';

/** Beside this share of the middle, times spread too widely to tell two cycles from one long one. */
const CLOCKLIKE = 0.12;
/** A time may be so far from a whole multiple: so many spreads, as a share of one cycle, and this share at least. */
const SPREADS = 5;
const NEAR = 0.15;
/** More cycles without a batch than this in a row are no longer believed. */
const MOST_SKIPPED = 20;

/** Times between batches, sorted out. */
export interface CycleGaps {
  /** Times of single cycles with the moment they ended, one list for each record. */
  readonly single: readonly (readonly Timed[])[];
  /** Cycles in all times that were used, those without a batch included. */
  readonly cycles: number;
  /** Balls of the batches that ended the times that were used. */
  readonly balls: readonly number[];
  /** Cycles without a batch: a time of about k cycles hides k - 1 of them. */
  readonly skipped: number;
  /** Times that were left out, and why. */
  readonly leftOut: readonly LeftOut[];
  /** Whether times are regular enough to see cycles without a batch. */
  readonly regular: boolean;
}

export interface LeftOut {
  /** Which record, from 0, and the moment in it at which the time ended. */
  readonly record: number;
  readonly at: number;
  readonly seconds: number;
  readonly why: 'too long' | 'too short' | 'between whole cycles';
}

/**
 * Times between consecutive batches of one unbroken running stretch: no stop, no break, no end of watching between them.
 *
 * Where single times are regular (most within some 12 % of the middle), a time near k of them is k cycles of which
 * k - 1 brought no batch (nothing caught, or no balls there), and a time near no whole number is left out; times typed to the
 * whole second may be off by one. Where they are not
 * regular, a time counts as one cycle unless it is far outside the others: beyond three times the middle half's width from
 * it, in logarithms (Tukey 1977, far out).
 *
 * @example
 * const batches = [0, 3, 6, 12, 15, 18].map((at) => ({ at, balls: 1 }));
 * const { cycles, skipped } = cycleGaps([{ watched: [{ from: 0, to: 20 }], stops: [], batches }]);
 * [cycles, skipped] // => [6, 1]
 */
export function cycleGaps(
  records: readonly Pick<ModuleRecord, 'watched' | 'stops' | 'batches'>[],
): CycleGaps {
  const gaps = records.map(gapsOf);
  const values = gaps.flat().map(({ value }) => value);
  if (values.length === 0)
    return { single: [], cycles: 0, balls: [], skipped: 0, leftOut: [], regular: true };
  const one = oneCycle(values);
  const close = values.filter((value) => value > 0.6 * one && value < 1.4 * one);
  const spread = close.length < 3 ? 0 : (1.4826 * medianAbsoluteDeviation(close)) / one;
  const regular = spread <= CLOCKLIKE && close.length >= 0.2 * values.length;
  const step = stepOf(records.flatMap(({ batches }) => batches.map(({ at }) => at)));
  const sort = regular
    ? byMultiples(close.length < 3 ? one : mean(close), Math.max(NEAR, SPREADS * spread), step)
    : byFences(values);
  const single: Timed[][] = [];
  const leftOut: LeftOut[] = [];
  const balls: number[] = [];
  let cycles = 0;
  let skipped = 0;
  for (const [record, list] of gaps.entries()) {
    const kept: Timed[] = [];
    for (const gap of list) {
      const found = sort(gap.value);
      if (typeof found === 'string') {
        leftOut.push({ record, at: gap.at, seconds: gap.value, why: found });
        continue;
      }
      cycles += found;
      balls.push(gap.balls);
      skipped += found - 1;
      if (found === 1) kept.push(gap);
    }
    single.push(kept);
  }
  return { single, cycles, balls, skipped, leftOut, regular };
}

/** A time between two batches, and the balls of the second. */
interface Gap extends Timed {
  readonly balls: number;
}

/** How many cycles a time is, or why it is not used. */
type Sort = (gap: number) => number | LeftOut['why'];

function gapsOf(record: Pick<ModuleRecord, 'watched' | 'stops' | 'batches'>): Gap[] {
  const { ran } = runningTime(record);
  const gaps: Gap[] = [];
  let stretch = 0;
  let before: number | null = null;
  for (const { at, balls } of record.batches) {
    while (stretch < ran.length && at > (ran[stretch]?.to ?? Infinity)) {
      stretch++;
      before = null;
    }
    if (at < (ran[stretch]?.from ?? Infinity)) continue;
    // Two batches typed at one moment are no cycle.
    if (before !== null && at > before) gaps.push({ at, value: at - before, balls });
    before = at;
  }
  return gaps;
}

/** The length of a single cycle: the middle, unless enough times lie near half or a third of it. */
function oneCycle(values: readonly number[]): number {
  const middle = median([...values]);
  for (const parts of [4, 3, 2]) {
    const part = values.filter((value) => Math.abs((value * parts) / middle - 1) < 0.15);
    if (part.length >= 0.1 * values.length && part.length >= 3) return median(part);
  }
  return middle;
}

function byMultiples(one: number, near: number, step: number): Sort {
  return (gap) => {
    const times = Math.round(gap / one);
    if (times === 0) return 'too short';
    if (times - 1 > MOST_SKIPPED) return 'too long';
    // The spread of k cycles grows with the root of k; both ends of a time may have been rounded.
    return Math.abs(gap - times * one) <= near * Math.sqrt(times) * one + step
      ? times
      : 'between whole cycles';
  };
}

/** What all times are whole multiples of, as far as people type them: a second, a tenth; 0 when none. */
function stepOf(times: readonly number[]): number {
  return (
    [1, 0.5, 0.1].find((step) =>
      times.every((time) => Math.abs(time / step - Math.round(time / step)) < 1e-6),
    ) ?? 0
  );
}

function byFences(values: readonly number[]): Sort {
  const logs = values.map((value) => Math.log(value)).toSorted((a, b) => a - b);
  const at = (p: number): number => logs[Math.floor(p * (logs.length - 1))] ?? 0;
  const width = Math.max(at(0.75) - at(0.25), 0.05);
  return (gap) => {
    if (Math.log(gap) > at(0.75) + 3 * width) return 'too long';
    return Math.log(gap) < at(0.25) - 3 * width ? 'too short' : 1;
  };
}
