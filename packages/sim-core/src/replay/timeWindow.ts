import { sessionsOf, type ShowSpec } from '../model/spec/index.js';

const HOUR = 3600;
/** Sums of hours and minutes that miss a whole number by less than this do so by rounding. */
const HAIR = 1e-6;

/** A stretch of a show: public seconds after the first opening. What falls on its end belongs to it only at closing time. */
export interface TimeWindow {
  readonly from: number;
  readonly to: number;
}

/** The whole show as a window. */
export function wholeShow(show: ShowSpec): TimeWindow {
  return { from: 0, to: show.seconds };
}

/** True when a moment belongs to a window of a show. */
export function isWithin({ from, to }: TimeWindow, time: number, show: ShowSpec): boolean {
  return time >= from && (time < to || (to >= show.seconds && time <= to));
}

/**
 * The full hours by the clock in which the public is there all the time: from 11:00 to 12:00 and so on. They are counted
 * from the first opening when the scenario does not say when that is.
 *
 * @example
 * clockHours({ seconds: 7200, warmUpSeconds: 0, opensAtSeconds: 37800 }) // => [{ from: 1800, to: 5400 }]
 */
export function clockHours(show: ShowSpec): TimeWindow[] {
  const opensAt = show.opensAtSeconds ?? 0;
  return sessionsOf(show).flatMap(({ fromSeconds, clockSeconds, toSeconds }) => {
    const before = (HOUR - ((opensAt + clockSeconds) % HOUR)) % HOUR;
    const hours = Math.floor((toSeconds - fromSeconds - before + HAIR) / HOUR);
    return Array.from({ length: Math.max(0, hours) }, (_, k) => {
      const from = fromSeconds + before + k * HOUR;
      return { from, to: from + HOUR };
    });
  });
}
