import { studentTQuantile } from '../../numerics/index.js';
import { areAlike, type Estimate, momentsOf, ofAlike, subsetPaired } from '../../statistics/index.js';
import type { Study } from '../study.js';
import type { System } from '../system.js';

/** What the search saw of one place. */
export interface PlaceSeen {
  readonly label: string;
  /**
   * The measure there, with the luck of single shows taken out: how far the place lies from the finalists in the same
   * shows, on top of the mean of the finalists.
   */
  readonly figure: Estimate;
  /** The measure there less that of the place found, show by show; null for that place itself. */
  readonly from_best: Estimate | null;
  /** Shows after which it was dropped; null when it was kept to the end. */
  readonly dropped_after: number | null;
}

/** How the search for a place went. */
export interface PlaceSearch {
  readonly measure: string;
  /** In the order in which they were given. */
  readonly places: readonly PlaceSeen[];
  /** Number of the place that looked best. */
  readonly best: number;
  /** Number of the place in the middle of all that looked, by their figures. */
  readonly middling: number;
  /** Finalists that cannot be told from the best, in order of their figures, the best among them. */
  readonly as_good: readonly string[];
  /**
   * A place that is better than the others by this much is dropped in the first round with chance 5 % at most; null when
   * there was only one round.
   */
  readonly overlooks: number | null;
  readonly shows: number;
}

export interface PlaceSearchOptions {
  readonly measure: string;
  readonly better: 'more' | 'less';
  /** Shows to spend, about. */
  readonly budget: number;
  readonly confidence: number;
  /** That the measure cannot vary from show to show in any place, by the scenario. @default false */
  readonly certain?: boolean;
  /** Number of the place that is taken when others look just as good; the first of them if not given. */
  readonly prefer?: number;
}

/** Replications from here on are for the search; what it finds is judged by others. */
export const SEARCH_FROM = 1_000_000;
/** Of the places of a round so many go on: one in four, and never fewer than these. */
const KEEP_SHARE = 0.25;
const FINALISTS = 4;
/** Shows of a round at least; so many of every place are always simulated. */
export const FIRST_SHOWS = 2;
const MOST_SHOWS = 40;

/**
 * Looks for the best of several places with shows of the same luck at all: rounds of which the best quarter goes on, the
 * shows spent evenly over the rounds (sequential halving, here quartering: Karnin, Koren & Somekh 2013, Proc. ICML 28,
 * 1238-1246, from memory). What the search saw of the winner flatters it, because luck helped to choose it: judge it by
 * other replications.
 *
 * @param systems one for each place, at least 2
 * @param labels of the places, in words
 */
export async function searchPlace(
  study: Study,
  systems: readonly System[],
  labels: readonly string[],
  options: PlaceSearchOptions,
): Promise<PlaceSearch> {
  const { measure, better, budget, confidence, certain = false, prefer } = options;
  const sign = better === 'more' ? 1 : -1;
  const dropped = new Map<number, number>();
  let left = systems.map((_, i) => i);
  let shows = 0;
  let spent = 0;
  const meanOf = (i: number): number => momentsOf(columnOf(i, shows)).mean;
  const byFigure = (a: number, b: number): number =>
    badLast(sign * meanOf(b)) - badLast(sign * meanOf(a)) ||
    Number(b === prefer) - Number(a === prefer) ||
    a - b;
  const columnOf = (i: number, count: number): number[] =>
    study.column(systems[i] as System, measure, count, SEARCH_FROM);
  for (let last = false; !last;) {
    const rounds = roundsFor(left.length);
    last = rounds === 1;
    const share = Math.floor((budget - spent) / (rounds * left.length));
    const more = Math.min(Math.max(FIRST_SHOWS, share), MOST_SHOWS - shows);
    const some = left.map((i) => systems[i] as System);
    study.expect(some, more, SEARCH_FROM + shows);
    await study.simulate(some, more, SEARCH_FROM + shows);
    shows += more;
    spent += more * left.length;
    if (last) break;
    const ranked = left.toSorted(byFigure);
    const going = new Set(ranked.slice(0, keptOf(left.length)));
    for (const i of left) if (!going.has(i)) dropped.set(i, shows);
    left = left.filter((i) => going.has(i));
  }
  const finalists = left.toSorted(byFigure);
  const best = finalists[0] ?? 0;
  const showsOf = (i: number): number => dropped.get(i) ?? shows;
  const figures = figuresOf(systems, columnOf, finalists, showsOf, confidence, certain);
  const differenceFrom = (chosen: number, i: number): Estimate => {
    const count = showsOf(i);
    const alike = systems.map((_, j) => j).filter((j) => j === chosen || showsOf(j) === count);
    return pairedAmongAlike(
      columnOf(i, count),
      columnOf(chosen, count),
      alike.map((j) => columnOf(j, count)),
      confidence,
      certain,
    );
  };
  const ranked = figures
    .map(({ mean }, i) => ({ i, value: badLast(sign * (mean ?? NaN)) }))
    .toSorted((a, b) => b.value - a.value || a.i - b.i);
  const first = Math.min(...dropped.values());
  return {
    measure,
    places: labels.map((label, i) => ({
      label,
      figure: figures[i] as Estimate,
      from_best: i === best ? null : differenceFrom(best, i),
      dropped_after: dropped.get(i) ?? null,
    })),
    best,
    middling: ranked[Math.floor((ranked.length - 1) / 2)]?.i ?? best,
    as_good: asGood(
      finalists.map((i) => columnOf(i, shows).map((value) => sign * value)),
      confidence,
      certain,
    ).map((f) => labels[finalists[f] ?? 0] ?? ''),
    overlooks: Number.isFinite(first)
      ? studentTQuantile(0.95, (first - 1) * (systems.length - 1)) *
        Math.sqrt((2 * residualVariance(systems.map((_, i) => columnOf(i, first)))) / first)
      : null,
    shows: spent,
  };
}

/** Rounds that so many places take until the finalists are left, the last one with these included. */
function roundsFor(count: number): number {
  return count <= FINALISTS ? 1 : 1 + roundsFor(keptOf(count));
}

function keptOf(count: number): number {
  return Math.max(FINALISTS, Math.ceil(KEEP_SHARE * count));
}

/** A place where there was nothing to measure is no good place. */
function badLast(value: number): number {
  return Number.isNaN(value) ? -Number.MAX_VALUE : value;
}

/** Finalists among which the best is for sure enough; all when there is too little to tell. */
function asGood(columns: readonly (readonly number[])[], confidence: number, certain: boolean): number[] {
  const sound = columns.every((column) => column.length >= 2 && column.every(Number.isFinite));
  return columns.length < 2 || !sound ? columns.map((_, i) => i) : subsetPaired(columns, confidence, certain);
}

/**
 * What is left of the spread when places and shows each have a level of their own (two-way layout without repetition:
 * residual mean square on (k - 1)(n - 1) degrees of freedom).
 */
function residualVariance(columns: readonly (readonly number[])[]): number {
  const n = columns[0]?.length ?? 0;
  const shows = Array.from(
    { length: n },
    (_, r) => momentsOf(columns.map((column) => column[r] ?? NaN)).mean,
  );
  const squares = columns.map((column) => {
    const left = momentsOf(column.map((value, r) => value - (shows[r] ?? NaN)));
    return left.count > 1 ? left.variance * (left.count - 1) : 0;
  });
  return squares.reduce((sum, value) => sum + value, 0) / ((columns.length - 1) * (n - 1));
}

/** Figures of all places, each against the finalists in the same shows; the spread is pooled over places alike. */
function figuresOf(
  systems: readonly System[],
  columnOf: (i: number, count: number) => readonly number[],
  finalists: readonly number[],
  showsOf: (i: number) => number,
  confidence: number,
  certain: boolean,
): Estimate[] {
  const all = Math.max(...systems.map((_, i) => showsOf(i)));
  const yard = Array.from(
    { length: all },
    (_, r) => momentsOf(finalists.map((i) => columnOf(i, all)[r] ?? NaN)).mean,
  );
  const level = momentsOf(yard).mean;
  const moments = systems.map((_, i) =>
    momentsOf(columnOf(i, showsOf(i)).map((value, r) => value - (yard[r] ?? NaN))),
  );
  return moments.map((own, i): Estimate => {
    const common = { confidence, replications: own.count };
    if (own.count === 0) return { mean: null, low: null, high: null, ...common };
    const mean = level + own.mean;
    const alike = moments.filter((other, j) => other.count > 1 && showsOf(j) === showsOf(i));
    const degrees = alike.reduce((sum, { count }) => sum + count - 1, 0);
    if (degrees === 0) return { mean, low: null, high: null, ...common };
    const pooled = alike.reduce((sum, { variance, count }) => sum + variance * (count - 1), 0) / degrees;
    const half = studentTQuantile(0.5 + confidence / 2, degrees) * Math.sqrt(pooled / own.count);
    const found = { mean, low: mean - half, high: mean + half, ...common };
    return areAlike(pooled, Math.abs(mean)) ? ofAlike(found, certain) : found;
  });
}

/** One column less another, show by show; the spread is that left over by all columns alike, of which they are two. */
function pairedAmongAlike(
  column: readonly number[],
  from: readonly number[],
  alike: readonly (readonly number[])[],
  confidence: number,
  certain: boolean,
): Estimate {
  const { mean, count } = momentsOf(column.map((value, r) => value - (from[r] ?? NaN)));
  const common = { confidence, replications: count };
  if (count === 0) return { mean: null, low: null, high: null, ...common };
  const degrees = (alike.length - 1) * (count - 1);
  const variance = degrees > 0 ? residualVariance(alike) : NaN;
  if (Number.isNaN(variance)) return { mean, low: null, high: null, ...common };
  const half = studentTQuantile(0.5 + confidence / 2, degrees) * Math.sqrt((2 * variance) / count);
  const found = { mean, low: mean - half, high: mean + half, ...common };
  return areAlike(variance, Math.abs(momentsOf(from).mean)) ? ofAlike(found, certain) : found;
}
