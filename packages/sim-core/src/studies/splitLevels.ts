import { RAN_OVER } from '../experiments/index.js';

/** A level at which shows are split: a share of a basket, and into how many they go on. */
export interface SplitLevel {
  readonly share: number;
  readonly copies: number;
}

/** About so many reach the next level; 0.2 to 0.3 costs hardly more than the best (Garvels 2000, section 2.4, from memory). */
const REACHING = 0.25;
/** More than this share need no level in between. */
const MOST_REACHING = 0.5;
/** Fewer than this tell too little of where a level should be. */
const FEWEST = 3;

/**
 * The next levels, by how full the fullest watched basket became in shows that reached the last one: the first such that
 * a quarter of them reach it, the second a quarter of these if so many are left to judge by.
 *
 * Levels only decide how sharp the estimate is, never what it is on average; so they need not be exact.
 *
 * @param peaks highest shares of a basket, one for each show; RAN_OVER where it ran over
 * @param above the last level
 * @returns none when no level above is reached by fewer, or enough shows ran over
 * @example
 * nextLevels([0.1, 0.2, 0.2, 0.3, 0.3, 0.4, 0.5, 0.6, 0.7, 0.9, 0.9, 1], 0) // => [{ share: 0.9, copies: 4 }]
 */
export function nextLevels(peaks: readonly number[], above: number): SplitLevel[] {
  const levels: SplitLevel[] = [];
  let from = peaks;
  for (let last = above; ;) {
    const level = nextLevel(from, last);
    if (level === undefined) return levels;
    const reaching = from.filter((peak) => peak >= level.share);
    levels.push(level);
    if (reaching.length * REACHING < FEWEST) return levels;
    from = reaching;
    last = level.share;
  }
}

function nextLevel(peaks: readonly number[], above: number): SplitLevel | undefined {
  const shares = [...new Set(peaks)].filter((share) => share > above && share < RAN_OVER);
  const rising = shares.toSorted((a, b) => a - b);
  const over = peaks.filter((peak) => peak === RAN_OVER).length;
  if (over >= REACHING * peaks.length) return undefined;
  const reach = (share: number): number => peaks.filter((peak) => peak >= share).length;
  // The lowest that a quarter at most reach; where balls come in a heap and fewer do, the highest that anybody reaches.
  const share = rising.find((it) => reach(it) <= REACHING * peaks.length) ?? rising.at(-1);
  if (share === undefined || reach(share) > MOST_REACHING * peaks.length) return undefined;
  return { share, copies: Math.max(2, Math.round(peaks.length / reach(share))) };
}
