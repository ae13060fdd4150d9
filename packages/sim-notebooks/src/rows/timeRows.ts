import type { Estimate, RunResult } from '@lapwright/sim-core';

/** A figure over one slice of time, with its interval. */
export interface TimeRow {
  /** Middle of the slice: hours after midnight when the opening time is known, after the opening otherwise. */
  readonly hour: number;
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

/** Beginning and end of each slice, in the hours of {@link TimeRow}. */
export function sliceHours(result: RunResult): { readonly from: number; readonly to: number }[] {
  const opens = result.scenario.opens_s ?? 0;
  return result.series.slice_ends_s.map((end, k) => ({
    from: (opens + (result.series.slice_ends_s[k - 1] ?? 0)) / 3600,
    to: (opens + end) / 3600,
  }));
}

/** A series of estimates as rows over time; slices without a value are left out. */
export function timeRows(result: RunResult, series: readonly Estimate[]): TimeRow[] {
  return sliceHours(result).flatMap(({ from, to }, k) => {
    const estimate = series[k];
    if (estimate?.mean === null || estimate === undefined) return [];
    const { mean, low, high } = estimate;
    return [{ hour: (from + to) / 2, mean, low: low ?? mean, high: high ?? mean }];
  });
}
