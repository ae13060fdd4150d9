import type { Estimate } from '../../statistics/index.js';
import { between, beyond, type Grid } from './grid.js';
import type { Looked } from './looked.js';

/** The furthest value with which a limit is kept for sure. */
export interface LimitSearch {
  /** Judged and kept for sure, in the order judged. */
  readonly kept: readonly number[];
  /** Judged and broken for sure. */
  readonly broken: readonly number[];
  /** Judged, and neither. */
  readonly open: readonly number[];
  /** The last of those kept; null when none is. */
  readonly furthest: number | null;
  /** Whether nothing was left to try beyond it. */
  readonly atTheEnd: boolean;
}

/** What is looked for. */
export interface LimitOptions {
  readonly grid: Grid;
  /** In the unit of the measure. */
  readonly limit: number;
  /** Whether a good value of the measure is a large one, at least the limit; else at most the limit. */
  readonly atLeast: boolean;
  /** Kept for sure, with all that must be kept besides the limit, by the shows there are of the value. */
  readonly isKept: (value: number) => boolean;
  /** For sure not. */
  readonly isBroken: (value: number) => boolean;
  /** Whether by a first look what must be kept besides the limit may be. */
  readonly mayKeep: (value: number) => boolean;
  /** The side on which the furthest value is looked for: 1 the largest, -1 the smallest. */
  readonly side: 1 | -1;
}

/** Rounds in which the grid may grow towards values that are surely safe, and towards larger or smaller ones. */
const ROUNDS_BACK = 4;
const ROUNDS_ON = 6;

/** Confidence at which a first look says that a limit is likely to be kept. */
const LIKELY = 0.6;

/** The same, so surely that judging may begin there. */
const PROBABLE = 0.8;

/** Where shows were all alike a first look goes by that: where to judge is no claim. */
function atItsWord(found: Estimate): Estimate {
  const { mean, low, high } = found;
  return low === null && high === null ? { ...found, low: mean, high: mean } : found;
}

/** Whether an interval lies wholly on the right side of a limit. */
export function keeps({ low, high }: Estimate, limit: number, atLeast: boolean): boolean {
  return atLeast ? low !== null && low >= limit : high !== null && high <= limit;
}

/** Whether an interval lies wholly on the wrong side of a limit. */
export function breaks({ low, high }: Estimate, limit: number, atLeast: boolean): boolean {
  return atLeast ? high !== null && high < limit : low !== null && low > limit;
}

/**
 * Looks for the largest (or smallest) value for which a limit is kept for sure.
 *
 * The first look finds where the decision lies; the grid grows where it must and becomes finer there. Then, with fresh
 * shows, values are judged one by one from the safe end of that stretch on, and the first that is not surely kept ends it:
 * hypotheses tested in a fixed sequence, each at the full level, err with at most that level in all (Maurer, Hothorn &
 * Lehmacher 1995, in: Biometrie in der chemisch-pharmazeutischen Industrie 6, 3-18; closed testing: Marcus, Peritz & Gabriel
 * 1976, Biometrika 63, 655-660; from memory). In the same way from the other end which values surely break it. Each side
 * takes one end of the interval, so that all statements together hold with the confidence of the interval. Nothing is taken
 * for granted about how the measure goes between values.
 */
export async function limitSearch(looked: Looked, options: LimitOptions): Promise<LimitSearch> {
  const { grid, limit, atLeast, side, isKept, isBroken, mayKeep } = options;
  const onwards = (): number[] => looked.exploredValues.toSorted((a, b) => side * (a - b));
  const last = (): number | undefined => onwards().findLast((value) => isKept(value));
  const likely = (value: number, confidence = LIKELY): boolean => {
    const rough = atItsWord(looked.estimate(value, looked.options.on, false, confidence));
    return mayKeep(value) && (keeps(rough, limit, atLeast) || (!atLeast && rough.mean === 0));
  };

  // One likely value at the very end may turn out not to be sure, and there would be nothing before it.
  const isSafeEnd = (): boolean =>
    last() !== undefined || onwards().filter((value) => likely(value)).length >= 2;
  for (let round = 0; !grid.fixed && round < ROUNDS_BACK && !isSafeEnd(); round++) {
    if (!(await grow(onwards()[0] as number, side === 1 ? -1 : 1, round))) break;
  }
  const lastLikely = (): number | undefined => onwards().findLast((value) => likely(value));
  for (let round = 0; !grid.fixed && round < ROUNDS_ON && lastLikely() === onwards().at(-1); round++) {
    if (!(await grow(onwards().at(-1) as number, side, round))) break;
  }

  const all = onwards();
  // None seen is likely to be kept at any confidence.
  const surelySeen = (value: number): boolean =>
    (atLeast || looked.estimate(value).mean !== 0) && likely(value, PROBABLE);
  // Where even none seen would not be enough to be sure in a first look, the last but one that is likely to be kept.
  const from =
    last() ??
    all.filter((value) => surelySeen(value)).slice(-2)[0] ??
    all.filter((value) => likely(value)).slice(-2)[0] ??
    bestOf(all);
  const beyondIt = all.slice(all.indexOf(from) + 1);
  const to = beyondIt.find((value) => isBroken(value)) ?? all.at(-1) ?? from;
  // Finer only where the decision is likely to lie; what is before it is judged to have somewhere safe to begin.
  const inner = last() === undefined && likely(from) ? (lastLikely() ?? from) : from;
  const stretch = all.slice(all.indexOf(from), all.indexOf(to) + 1);
  const candidates = grid.fixed
    ? stretch
    : [...all.slice(all.indexOf(from), all.indexOf(inner)), ...between(inner, to, grid.whole)]
        .filter((value) => looked.can(value))
        .toSorted((a, b) => side * (a - b));

  const kept: number[] = [];
  for (const [i, value] of candidates.entries()) {
    await looked.judge([value], candidates.slice(i + 1, i + 3));
    if (!isKept(value)) break;
    kept.push(value);
  }
  const broken: number[] = [];
  for (const [i, value] of candidates.toReversed().entries()) {
    if (kept.includes(value)) break;
    if (!looked.isJudged(value)) await looked.judge([value], candidates.toReversed().slice(i + 1, i + 2));
    if (!isBroken(value)) break;
    broken.push(value);
  }
  return {
    kept,
    broken,
    open: candidates.filter(
      (value) => looked.isJudged(value) && !kept.includes(value) && !broken.includes(value),
    ),
    furthest: kept.at(-1) ?? null,
    atTheEnd: kept.length === candidates.length && to === all.at(-1),
  };

  async function grow(end: number, towards: 1 | -1, round: number): Promise<boolean> {
    const value = beyond(grid, end, towards, round);
    if (value === null || looked.exploredValues.includes(value) || !looked.can(value)) return false;
    await looked.explore([value]);
    return true;
  }

  function bestOf(values: readonly number[]): number {
    const mean = (value: number): number =>
      (atLeast ? 1 : -1) * (looked.estimate(value).mean ?? (atLeast ? -Infinity : Infinity));
    const fit = values.filter((value) => mayKeep(value));
    return (fit.length === 0 ? values : fit).reduce((best, value) =>
      mean(value) > mean(best) ? value : best,
    );
  }
}
