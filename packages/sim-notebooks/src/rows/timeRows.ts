import type { Estimate, RunResult } from '@lapwright/sim-core';

/** A figure over one slice of time, with its interval. */
export interface TimeRow {
  /**
   * Middle of the slice, or an end of its session: public hours on top of the opening time when it is known, of 0 otherwise. In one session these
   * are the hours of the clock.
   */
  readonly hour: number;
  /** Number of the session, from 0. */
  readonly session: number;
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

/** Where each session begins, in the hours of {@link TimeRow}, and what the clock shows there in hours. */
export function sessionHours({ scenario: { opens_s, sessions } }: RunResult): {
  readonly at: number;
  readonly clock: number;
}[] {
  const opens = opens_s ?? 0;
  return sessions.map(({ from_s: from, clock_s: clock }) => ({
    at: (opens + from) / 3600,
    clock: (opens + clock) / 3600,
  }));
}

/**
 * A series of estimates as rows over time, at the middle of each slice, and at both ends of each session again, so that
 * lines reach from end to end; slices without a value are left out.
 */
export function timeRows(result: RunResult, series: readonly Estimate[]): TimeRow[] {
  const sessions = sessionHours(result).map(({ at }) => at);
  const slices = sliceHours(result);
  const sessionOf = (hour: number): number => sessions.findLastIndex((at) => at <= hour);
  return slices.flatMap(({ from, to }, k) => {
    const estimate = series[k];
    if (estimate?.mean === null || estimate === undefined) return [];
    const { mean, low, high } = estimate;
    const middle = (from + to) / 2;
    const session = sessionOf(middle);
    const first = k === 0 || sessionOf(slices[k - 1]?.from ?? from) < session;
    const last = k === slices.length - 1 || sessionOf(to) > session;
    return [...(first ? [from] : []), middle, ...(last ? [to] : [])].map((hour) => ({
      hour,
      session,
      mean,
      low: low ?? mean,
      high: high ?? mean,
    }));
  });
}
