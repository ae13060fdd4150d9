import type { LoopSpec, TimeWindow } from '@lapwright/sim-core';

/**
 * The hours of a timeline: from the clock time of its beginning, or from the hours since the opening when that is not
 * known. Public time runs on without gaps; sessions say where a new one begins and what the clock shows there.
 */
export interface TimelineAxis {
  readonly from: number;
  readonly to: number;
  readonly byTheClock: boolean;
  readonly sessions: readonly { readonly at: number; readonly clock: number }[];
  /** Public seconds at the beginning. */
  readonly start: number;
}

const HOUR = 3600;

/** Lays out a window of a show. */
export function timelineAxis({ show }: LoopSpec, window: TimeWindow): TimelineAxis {
  const { opensAtSeconds, sessions = [{ fromSeconds: 0, clockSeconds: 0 }] } = show;
  const inside = sessions.flatMap(({ fromSeconds, clockSeconds }, i) => {
    const end = sessions[i + 1]?.fromSeconds ?? show.seconds;
    const begin = Math.max(fromSeconds, window.from);
    if (begin >= Math.min(end, window.to)) return [];
    return [{ begin, clock: ((opensAtSeconds ?? 0) + clockSeconds + begin - fromSeconds) / HOUR }];
  });
  const from = inside[0]?.clock ?? 0;
  return {
    from,
    to: from + (window.to - window.from) / HOUR,
    byTheClock: opensAtSeconds !== undefined,
    sessions: inside.map(({ begin, clock }) => ({ at: from + (begin - window.from) / HOUR, clock })),
    start: window.from,
  };
}

/** Where a moment, public seconds, lies on the axis. */
export function onAxis({ from, start }: TimelineAxis, time: number): number {
  return from + (time - start) / HOUR;
}
