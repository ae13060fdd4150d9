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

/** The loop-time histogram without its empty ends, in at most about sixty bars. */
export function loopTimeRows({ loop_time_histogram: { bin_s: bin, laps } }: RunResult): LoopTimeRow[] {
  const total = laps.reduce((sum, count) => sum + count, 0);
  if (total === 0) return [];
  // The longest thousandth would stretch the picture over mostly empty space.
  const first = indexAtShare(laps, 0.0005 * total);
  const last = indexAtShare(laps, 0.9995 * total);
  const merge = Math.max(1, Math.ceil((last - first + 1) / BARS));
  const rows: LoopTimeRow[] = [];
  for (let i = first; i <= last; i += merge) {
    const count = laps.slice(i, i + merge).reduce((sum, value) => sum + value, 0);
    rows.push({ fromMinutes: (i * bin) / 60, toMinutes: ((i + merge) * bin) / 60, share: count / total });
  }
  return rows;
}

function indexAtShare(laps: readonly number[], count: number): number {
  let sum = 0;
  for (const [i, value] of laps.entries()) {
    sum += value;
    if (sum > count) return i;
  }
  return laps.length - 1;
}
