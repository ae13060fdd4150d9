import type { ModuleRecord } from '../logs/index.js';
import { type Counted, rateRatio } from '../statistics/index.js';
import type { Figure } from './figure.js';
import { countUntil, runningClock, runningTime } from './runningTime.js';

/** Does it stop more often while its basket is crowded? */
export interface CrowdingFit {
  /** Share of the capacity above which it counts as crowded. */
  readonly above: number;
  readonly crowded: Counted;
  readonly free: Counted;
  /** How many times as often, with Jeffreys' limits; the upper one null when there is none. */
  readonly times: Figure;
  /** Exact limits, on the safe side; `high` may be Infinity. */
  readonly exact: { readonly low: number; readonly high: number };
}

/**
 * How many times as often a cause strikes while the basket stands above a share of its capacity: the ratio of two rates,
 * by running time where the level was known. A level, written at a batch or a stop, holds until the next one is written or
 * watching ends; a stop without one takes the last.
 *
 * @param cause every cause when absent
 * @returns null when levels were not logged, or all on one side
 */
export function fitCrowding(
  records: readonly ModuleRecord[],
  cause: string | null,
  options: { readonly above: number; readonly confidence: number },
): CrowdingFit | null {
  const { above, confidence } = options;
  const seconds = { crowded: 0, free: 0 };
  const stops = { crowded: 0, free: 0 };
  for (const record of records) {
    const ranBy = runningClock(runningTime(record).ran);
    for (const { from, to } of record.watched) {
      const levels = levelsOf(record, from, to);
      for (const [i, { at, level }] of levels.entries()) {
        const until = levels[i + 1]?.at ?? to;
        seconds[side(level, above)] += ranBy(until) - ranBy(at);
      }
      for (const stop of record.stops) {
        if ((cause !== null && stop.cause !== cause) || stop.from < from || stop.from > to) continue;
        const known = countUntil(levels.length, (i) => (levels[i]?.at ?? Infinity) <= stop.from);
        const level = stop.level ?? levels[known - 1]?.level;
        if (level !== undefined) stops[side(level, above)]++;
      }
    }
  }
  if (!(seconds.crowded > 0 && seconds.free > 0)) return null;
  const crowded = { events: stops.crowded, exposure: seconds.crowded };
  const free = { events: stops.free, exposure: seconds.free };
  const { ratio, exact, jeffreys } = rateRatio(crowded, free, confidence);
  return {
    above,
    crowded,
    free,
    times: {
      value: ratio,
      low: jeffreys.low,
      high: Number.isFinite(jeffreys.high) ? jeffreys.high : null,
      confidence,
      n: stops.crowded + stops.free,
    },
    exact,
  };
}

/** A fit that shows for sure that a crowded basket stops it more often: what a scenario can say. */
export type CrowdingShown = CrowdingFit & { readonly times: { readonly value: number } };

/** Whether it stops more often while its basket is crowded, for sure. */
export function isShown(crowding: CrowdingFit | null): crowding is CrowdingShown {
  return crowding !== null && crowding.times.value !== null && (crowding.times.low ?? 0) > 1;
}

/** How many times as often it stops in all as while its basket is not crowded. */
export function aboveFree({ crowded, free }: CrowdingShown): number {
  const all = (crowded.events + free.events) / (crowded.exposure + free.exposure);
  return all / (free.events / free.exposure);
}

interface LevelSeen {
  readonly at: number;
  readonly level: number;
}

/** Levels written in one watched stretch, by rising time. */
function levelsOf(record: ModuleRecord, from: number, to: number): LevelSeen[] {
  const seen = [
    ...record.batches.map(({ at, level }) => ({ at, level })),
    ...record.stops.map(({ from: at, level }) => ({ at, level })),
  ];
  return seen
    .filter((one): one is LevelSeen => one.level !== undefined && one.at >= from && one.at < to)
    .toSorted((a, b) => a.at - b.at);
}

function side(level: number, above: number): 'crowded' | 'free' {
  return level > above ? 'crowded' : 'free';
}
