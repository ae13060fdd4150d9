import type { RunResult } from '@lapwright/sim-core';

/** One bar of the loop-time distribution. */
export interface LoopTimeRow {
  readonly fromMinutes: number;
  readonly toMinutes: number;
  /** Share of all unbroken laps, 0 to 1. */
  readonly share: number;
}

/** Bars aimed at: enough to show the shape, few enough to see each. */
const BARS = 60;

/** Share of the laps that is left out at the long end, so that a few strays do not stretch the picture. */
export const LEFT_OUT = 0.005;

/** The loop-time histogram in at most about sixty bars, without the longest half percent. */
export function loopTimeRows({ loop_time_histogram: { bin_s: bin, laps } }: RunResult): LoopTimeRow[] {
  const total = laps.reduce((sum, count) => sum + count, 0);
  if (total === 0) return [];
  const first = laps.findIndex((count) => count > 0);
  const last = indexAtShare(laps, (1 - LEFT_OUT) * total);
  const merge = Math.max(1, Math.ceil((last - first + 1) / BARS));
  const rows: LoopTimeRow[] = [];
  for (let i = first; i <= last; i += merge) {
    const count = laps.slice(i, i + merge).reduce((sum, value) => sum + value, 0);
    rows.push({ fromMinutes: (i * bin) / 60, toMinutes: ((i + merge) * bin) / 60, share: count / total });
  }
  return rows;
}

/** The bar in which this many laps, counted from the shortest, are reached. */
function indexAtShare(laps: readonly number[], count: number): number {
  let sum = 0;
  for (const [i, value] of laps.entries()) {
    sum += value;
    if (sum >= count) return i;
  }
  return laps.length - 1;
}
