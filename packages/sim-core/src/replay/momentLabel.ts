import type { ShowSpec } from '../model/spec/index.js';
import { clockLabel, type ClockOptions, clockSecondsAt, formatSeconds } from '../units/index.js';
import type { TimeWindow } from './timeWindow.js';

/** As much before a full second still counts as that second; clock labels do the same with minutes. */
const HAIR = 6e-8;

/**
 * A moment of the show to the second: `11:42:10`, in a show of several days `day 2 11:42:10`; when the scenario does not say
 * when the public comes in, hours since the opening: `1:42:10`.
 *
 * @param time public seconds after the first opening
 * @param options.end at the seam of two sessions, the end of the first @default false
 * @example
 * const show = { seconds: 7200, warmUpSeconds: 0 };
 * [momentLabel({ ...show, opensAtSeconds: 36000 }, 130.7), momentLabel(show, 3605)] // => ['10:02:10', '1:00:05']
 */
export function momentLabel(show: ShowSpec, time: number, options: ClockOptions = {}): string {
  const { opensAtSeconds } = show;
  const whole = Math.floor((opensAtSeconds ?? 0) + clockSecondsAt(show, time, options) + HAIR);
  const two = (value: number): string => String(value).padStart(2, '0');
  if (opensAtSeconds === undefined)
    return `${Math.floor(whole / 3600)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
  return clockLabel(show, time, options).replace(/\d\d:\d\d/, (minutes) => `${minutes}:${two(whole % 60)}`);
}

/**
 * A window in words: `11:00 to 12:00`, `day 1 16:30 to day 2 11:00`, or without an opening time `1 h to 2 h after the
 * opening` and `all 6 h`.
 *
 * @example
 * windowLabel({ seconds: 7200, warmUpSeconds: 0, opensAtSeconds: 36000 }, { from: 0, to: 3600 }) // => '10:00 to 11:00'
 */
export function windowLabel(show: ShowSpec, { from, to }: TimeWindow): string {
  if (show.opensAtSeconds === undefined && from === 0 && to === show.seconds)
    return `all ${formatSeconds(to)}`;
  if (show.opensAtSeconds === undefined)
    return `${formatSeconds(from)} to ${formatSeconds(to)} after the opening`;
  const wholeMinutes = [from, to].every((time) => (clockSecondsAt(show, time) + HAIR) % 60 < 2 * HAIR);
  const end = clockLabel(show, to, { end: true });
  const [begins, ends] = wholeMinutes
    ? [clockLabel(show, from), end]
    : [momentLabel(show, from), momentLabel(show, to, { end: true })];
  return `${begins} to ${sameDay(begins, ends)}`;
}

/** The later of two labels, without its day if that is the day of the first. */
function sameDay(first: string, second: string): string {
  const [day] = /^day \d+ /.exec(first) ?? [''];
  return second.startsWith(day) ? second.slice(day.length) : second;
}
