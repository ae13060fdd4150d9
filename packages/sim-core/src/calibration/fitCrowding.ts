import type { ModuleRecord } from '../logs/index.js';
import { type Counted, rateRatio } from '../statistics/index.js';
import type { Figure } from './figure.js';
import { runningTime } from './runningTime.js';

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
 * by running time where the level was known. A level written at a batch holds from the batch before, in one unbroken
 * stretch; a stop without a level takes that of the last batch.
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
    const { ran } = runningTime(record);
    for (const { from, to } of ran) {
      let at = from;
      for (const batch of record.batches) {
        if (batch.at <= from || batch.at > to) continue;
        if (batch.level !== undefined) seconds[side(batch.level, above)] += batch.at - at;
        at = batch.at;
      }
    }
    for (const stop of record.stops) {
      if (cause !== null && stop.cause !== cause) continue;
      const level = stop.level ?? record.batches.findLast(({ at }) => at <= stop.from)?.level;
      if (level !== undefined) stops[side(level, above)]++;
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

function side(level: number, above: number): 'crowded' | 'free' {
  return level > above ? 'crowded' : 'free';
}
