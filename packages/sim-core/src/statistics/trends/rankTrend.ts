import { median } from 'simple-statistics';
import { normalCdf } from '../../numerics/index.js';

/** Longer series are first taken together into so many means, so that all pairs can be compared. */
const MOST = 120;

/** A value at a time. */
export interface Timed {
  readonly at: number;
  readonly value: number;
}

/** Do values rise or fall with time? */
export interface RankTrend {
  readonly n: number;
  /** Mann-Kendall: pairs that rise less pairs that fall. */
  readonly score: number;
  /** About standard normal without a trend. */
  readonly z: number;
  /** Two-sided chance of such a score without a trend. */
  readonly pValue: number;
  /** Median slope of all pairs (Theil 1950, Sen 1968), value per unit of time. */
  readonly slope: number;
}

/**
 * A rank test for a trend, over one or several series that are not compared with each other (several days): Mann-Kendall
 * with ties counted (Mann 1945, Econometrica 13, 245-259; Kendall 1975, Rank Correlation Methods, from memory); scores and
 * variances of several series add up (Hirsch, Slack & Smith 1982, Water Resources Research 18, 107-121, from memory).
 *
 * var = (n (n - 1) (2 n + 5) - sum over ties of t (t - 1) (2 t + 5)) / 18, z = (S -+ 1) / sqrt(var). A series of more
 * than 120 values is first taken together into 120 means.
 *
 * @param series each by rising time
 * @returns null with fewer than four values in every series, or all the same: nothing can be said
 * @example
 * rankTrend([[1, 3, 2, 4].map((value, at) => ({ at, value }))]).score // => 4
 */
export function rankTrend(series: readonly (readonly Timed[])[]): RankTrend | null {
  let n = 0;
  let score = 0;
  let variance = 0;
  const slopes: number[] = [];
  for (const all of series) {
    if (all.length < 4) continue;
    const one = taken(all);
    const ties = new Map<number, number>();
    for (const { value } of one) ties.set(value, (ties.get(value) ?? 0) + 1);
    variance += pairVariance(one.length);
    for (const tied of ties.values()) variance -= pairVariance(tied);
    for (const [i, early] of one.entries()) {
      for (const late of one.slice(i + 1)) {
        score += Math.sign(late.value - early.value);
        if (late.at > early.at) slopes.push((late.value - early.value) / (late.at - early.at));
      }
    }
    n += one.length;
  }
  if (!(variance > 0) || slopes.length === 0) return null;
  const z = (score - Math.sign(score)) / Math.sqrt(variance);
  return { n, score, z, pValue: 2 * normalCdf(-Math.abs(z)), slope: median(slopes) };
}

function pairVariance(n: number): number {
  return (n * (n - 1) * (2 * n + 5)) / 18;
}

/** Neighbours taken together so that at most {@link MOST} are left. */
function taken(all: readonly Timed[]): readonly Timed[] {
  if (all.length <= MOST) return all;
  return Array.from({ length: MOST }, (_, i) => {
    const block = all.slice(Math.floor((i * all.length) / MOST), Math.floor(((i + 1) * all.length) / MOST));
    return {
      at: block.reduce((sum, { at }) => sum + at, 0) / block.length,
      value: block.reduce((sum, { value }) => sum + value, 0) / block.length,
    };
  });
}
