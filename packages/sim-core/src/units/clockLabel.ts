import { formatClock, formatSeconds } from './format.js';

/** When a show is open, as far as a clock on the wall needs to know; the show of a spec has it all. */
export interface ShowClock {
  /** Clock time of the first opening, seconds after midnight; unknown when absent. */
  readonly opensAtSeconds?: number;
  /** Sessions in order: public seconds and clock seconds since the first opening. One session when absent. */
  readonly sessions?: readonly { readonly fromSeconds: number; readonly clockSeconds: number }[];
}

/** Which of the two moments is meant at which one session ends and the next begins: they are one in public time. */
export interface ClockOptions {
  /** The end of the session before, not the beginning of the next. @default false */
  readonly end?: boolean;
}

/**
 * Seconds by the clock since the first opening, for a moment in public seconds since then.
 *
 * @example
 * // Open for two hours, half an hour closed, open again.
 * const show = { sessions: [{ fromSeconds: 0, clockSeconds: 0 }, { fromSeconds: 7200, clockSeconds: 9000 }] };
 * [clockSecondsAt(show, 7199), clockSecondsAt(show, 7200), clockSecondsAt(show, 7200, { end: true })] // => [7199, 9000, 7200]
 */
export function clockSecondsAt(show: ShowClock, publicSeconds: number, options: ClockOptions = {}): number {
  const { sessions = [] } = show;
  const begun = sessions.findLast(({ fromSeconds }, i) =>
    options.end && i > 0 ? fromSeconds < publicSeconds : fromSeconds <= publicSeconds,
  );
  return begun === undefined ? publicSeconds : begun.clockSeconds + (publicSeconds - begun.fromSeconds);
}

/**
 * What the clock on the wall shows at a moment of the show: `11:42`, in a show of several days `day 2 11:42`; without an
 * opening time `1 h 42 min after the opening`.
 *
 * @param show the show of a spec
 * @param publicSeconds public seconds after the first opening
 * @param options.end at the seam of two sessions, the end of the first and not the beginning of the second @default false
 * @example
 * // Two days from 10:00, the first of them seven hours long.
 * const show = { opensAtSeconds: 36000, sessions: [{ fromSeconds: 0, clockSeconds: 0 }, { fromSeconds: 25200, clockSeconds: 86400 }] };
 * [clockLabel(show, 900), clockLabel(show, 31320), clockLabel(show, 25200), clockLabel(show, 25200, { end: true })] // => ['day 1 10:15', 'day 2 11:42', 'day 2 10:00', 'day 1 17:00']
 * @example
 * [clockLabel({ opensAtSeconds: 36000 }, 6120), clockLabel({}, 6120)] // => ['11:42', '1 h 42 min after the opening']
 */
export function clockLabel(show: ShowClock, publicSeconds: number, options: ClockOptions = {}): string {
  const { opensAtSeconds, sessions = [] } = show;
  if (opensAtSeconds === undefined) return `${formatSeconds(publicSeconds)} after the opening`;
  const time = opensAtSeconds + clockSecondsAt(show, publicSeconds, options);
  const lastDay = Math.floor((opensAtSeconds + (sessions.at(-1)?.clockSeconds ?? 0)) / DAY);
  if (lastDay === 0) return formatClock(time);
  const day = Math.floor(time / DAY);
  return `day ${day + 1} ${formatClock(time - day * DAY)}`;
}

const DAY = 86400;
