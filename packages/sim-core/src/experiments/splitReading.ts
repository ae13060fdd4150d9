import { BranchingShow, type PreparedLoop } from '../model/index.js';
import type { SplitReading } from './reading.js';

/** Instead of the share at which the fullest watched basket stood: it ran over. */
export const RAN_OVER = 2;

/** What one start of a split show came to. */
export interface SplitStart {
  /** Whether a watched basket ran over; share of the full public hours in which one did; balls spilled there per hour. */
  readonly chance: number;
  readonly hoursShare: number;
  readonly ballsPerHour: number;
  /** How much was simulated for it, in whole shows. */
  readonly shows: number;
  /** By continuation that went to the end: the highest share of a watched basket, {@link RAN_OVER} where it ran over. */
  readonly peaks: readonly number[];
}

/** Figures before the peaks in the row of a start. */
export const SPLIT_FIGURES = 4;

/**
 * One start of a show by multilevel splitting: whenever a watched basket reaches the next level, the show goes on in
 * several ways, each of which counts for as much less.
 *
 * What a continuation that goes to the end of the show shows is weighted with the product of 1 / copies over the levels it
 * has passed. The sum over all continuations of a start has the expected value of one plain show, whatever the levels
 * and copies (fixed splitting: Villen-Altamirano & Villen-Altamirano 1991; Glasserman, Heidelberger, Shahabuddin & Zajic 1999, Operations
 * Research 47, 585-600; Garvels 2000; L'Ecuyer, Demers & Tuffin 2007, ACM TOMACS 17, 2, article 9; all from memory). Starts are independent, so intervals are
 * those of independent values.
 *
 * @returns the row of numbers of a start: see {@link toSplitStart}
 */
export function readSplit(
  loop: PreparedLoop,
  { places, levels }: SplitReading,
  seed: number,
  replication: number,
): readonly number[] {
  const options = { seed, replication };
  const show = new BranchingShow(loop, places, options);
  // What the show was when it reached each level: it is gone on with from there again and again.
  const kept: BranchingShow[] = [];
  let chance = 0;
  let hoursShare = 0;
  let ballsPerHour = 0;
  let shows = 0;
  const peaks: number[] = [];

  const goOn = (passed: number, branch: string, weight: number): void => {
    const from = show.now;
    const next = levels[passed];
    const reached = show.runUntil(next?.share ?? Infinity);
    shows += (show.now - from) / loop.end;
    if (next === undefined || !reached) {
      const { spills } = show;
      if (spills.any) chance += weight;
      hoursShare += weight * spills.hoursShare;
      ballsPerHour += weight * spills.ballsPerHour;
      peaks.push(spills.any ? RAN_OVER : show.peakShare);
      return;
    }
    const here = (kept[passed] ??= new BranchingShow(loop, places, options));
    here.copyFrom(show);
    for (let copy = 0; copy < next.copies; copy++) {
      if (copy > 0) show.copyFrom(here);
      show.goOwnWay(`${branch}.${copy}`);
      goOn(passed + 1, `${branch}.${copy}`, weight / next.copies);
    }
  };
  goOn(0, 'split', 1);
  return [chance, hoursShare, ballsPerHour, shows, ...peaks];
}

/** A start from its row of numbers. */
export function toSplitStart(row: readonly number[]): SplitStart {
  const [chance = NaN, hoursShare = NaN, ballsPerHour = NaN, shows = NaN] = row;
  return { chance, hoursShare, ballsPerHour, shows, peaks: row.slice(SPLIT_FIGURES) };
}
