import { studentTQuantile } from '../numerics/index.js';
import { momentsOf } from '../statistics/index.js';
import type { Study } from './study.js';
import { type System } from './system.js';

/** One of the orders that race, with what it has shown so far. */
export interface Racer {
  readonly order: readonly string[];
  readonly system: System;
}

/** How a race is run. */
export interface RaceOptions {
  readonly on: string;
  /** 1 when more is better, -1 when less is. */
  readonly sign: 1 | -1;
  /** First replication number. */
  readonly from: number;
  /** Shows of each at most. */
  readonly most: number;
  /** Shows of all together at most. */
  readonly budget: number;
}

/** What a race came to. */
export interface RaceResult {
  /** Those left that are as good as the leader within one standard error, the leader first. */
  readonly close: readonly number[];
  /** How much better than the first racer each was on average, over the shows it took part in. */
  readonly leads: readonly number[];
  /** The same over its standard error; unlimited when the lead was the same in all shows. */
  readonly ratios: readonly number[];
  /** What each came to on average over the shows it took part in, more always the better. */
  readonly means: readonly number[];
  readonly spent: number;
  /** Shows of those left. */
  readonly shows: number;
}

const FIRST_LOOK = 3;
/** One-sided; a drop that was wrong costs a chance, and is no claim: what is claimed is judged on other shows. */
const SURE_TO_DROP = 0.9;

/**
 * Races orders show by show with the same luck: after each show those are dropped that are surely worse than the leader
 * (paired Student's t, one-sided), until one is left or the shows run out. The idea is that of Hoeffding races (Maron and
 * Moore 1997, Artificial Intelligence Review 11, 193-225) with Student's t for the bound, as in racing for configurations
 * (Birattari, Stuetzle, Paquete and Varrentrapp 2002, GECCO, 11-18), both from memory.
 *
 * @param racers the first is what the others are measured by; one that does just the same is dropped
 */
export async function race(
  study: Study,
  racers: readonly Racer[],
  options: RaceOptions,
): Promise<RaceResult> {
  const { on, sign, from, most, budget } = options;
  const values: number[][] = racers.map(() => []);
  let left = racers.map((_, i) => i);
  let shows = 0;
  let spent = 0;
  while (shows < most) {
    const count = shows === 0 ? Math.min(FIRST_LOOK, most) : 1;
    if (spent + count * left.length > budget) break;
    const systems = left.flatMap((i) => racers[i]?.system ?? []);
    await study.simulate(systems, count, from + shows);
    for (const [k, i] of left.entries()) {
      const one = systems[k];
      if (one) values[i]?.push(...study.column(one, on, count, from + shows).map((x) => sign * x));
    }
    shows += count;
    spent += count * left.length;
    left = dropped(values, left);
    if (left.length === 1) break;
  }
  const leads = racers.map((_, i) => lead(values[i] ?? [], values[0] ?? []));
  const leader = leaderOf(values, left);
  const close = left.filter((i) => {
    const { mean, error } = lead(values[leader] ?? [], values[i] ?? []);
    return i !== leader && mean <= error;
  });
  return {
    close: [leader, ...close],
    leads: leads.map(({ mean }) => mean),
    means: values.map((column) => momentsOf(column).mean),
    ratios: leads.map(({ mean, error }) => (mean === 0 ? 0 : mean / error)),
    spent,
    shows,
  };
}

/** The one with the best mean, the first of equals. */
function leaderOf(values: readonly (readonly number[])[], left: readonly number[]): number {
  return left.reduce(
    (best, i) => (lead(values[i] ?? [], values[best] ?? []).mean > 0 ? i : best),
    left[0] ?? 0,
  );
}

function dropped(values: readonly (readonly number[])[], left: readonly number[]): number[] {
  const leader = leaderOf(values, left);
  return left.filter((i) => {
    if (i === leader) return true;
    const { mean, error, count } = lead(values[leader] ?? [], values[i] ?? []);
    if (count < 2) return true;
    if (leader === 0 && mean === 0 && error === 0) return false;
    return error === 0 ? mean === 0 : mean <= error * studentTQuantile(SURE_TO_DROP, count - 1);
  });
}

/** By how much the first of two columns is better, over the shows that both took part in. */
function lead(
  column: readonly number[],
  other: readonly number[],
): { readonly mean: number; readonly error: number; readonly count: number } {
  const both = Math.min(column.length, other.length);
  const { mean, variance, count } = momentsOf(column.slice(0, both).map((x, r) => x - (other[r] ?? NaN)));
  return { mean: count > 0 ? mean : 0, error: count > 1 ? Math.sqrt(variance / count) : Infinity, count };
}
