import type { SessionSpec } from '../../model/spec/index.js';
import { formatClock } from '../../units/index.js';
import type { DaysRead } from '../form/showForm.js';

const DAY = 86400;

/** A stretch of public time by the clock: seconds after the midnight before the first opening. */
export interface OpenTime {
  readonly from: number;
  readonly to: number;
}

/** The open times of all days in order; undefined when a day makes no sense (reported). */
export function openTimes(days: DaysRead): OpenTime[] | undefined {
  const all = days.map((day, d) => openTimesOfDay(day, d * DAY));
  return all.includes(undefined) ? undefined : all.flatMap((times) => times ?? []);
}

function openTimesOfDay(
  { opens, closes, breaks = [], found }: DaysRead[number],
  midnight: number,
): OpenTime[] | undefined {
  if (opens === undefined || closes === undefined) return undefined;
  if (closes <= opens) {
    return found.report(
      'contradiction',
      `this day closes (${formatClock(closes)}) before it opens (${formatClock(opens)})`,
      'A day ends before midnight.',
    );
  }
  const times: OpenTime[] = [];
  let from = opens;
  let ok = true;
  for (const pause of breaks) {
    const { from: begins, to: ends } = pause;
    if (begins === undefined || ends === undefined) {
      ok = false;
      continue;
    }
    const wrong =
      ends <= begins
        ? `this break ends (${formatClock(ends)}) before it begins (${formatClock(begins)})`
        : begins <= opens || ends >= closes
          ? `this break is not within the day, from ${formatClock(opens)} to ${formatClock(closes)}`
          : begins <= from
            ? `this break (${formatClock(begins)}) does not begin after the end of the one before it (${formatClock(from)})`
            : undefined;
    if (wrong !== undefined) {
      pause.found.report('contradiction', wrong);
      ok = false;
    } else {
      times.push({ from: midnight + from, to: midnight + begins });
      from = ends;
    }
  }
  times.push({ from: midnight + from, to: midnight + closes });
  return ok ? times : undefined;
}

/** The same as sessions of a spec. */
export function sessionsOf(open: readonly OpenTime[]): SessionSpec[] {
  const first = open[0]?.from ?? 0;
  return open.map(({ from }) => ({ fromSeconds: publicUntil(open, from), clockSeconds: from - first }));
}

/** Public seconds that have passed at a moment by the clock; in closed time those of the sessions before. */
export function publicUntil(open: readonly OpenTime[], clock: number): number {
  return open.reduce((sum, { from, to }) => sum + Math.max(0, Math.min(to, clock) - from), 0);
}

/** Whether the public is there at a moment by the clock; at closing time it is not. */
export function isPublic(open: readonly OpenTime[], clock: number): boolean {
  return open.some(({ from, to }) => from <= clock && clock < to);
}

/** A moment by the clock: seconds after the midnight before day 1, for a time of day on a day from 1. */
export function clockOn(day: number, timeOfDay: number): number {
  return (day - 1) * DAY + timeOfDay;
}

/** The opening times of a day in words: "from 10:00 to 13:00 and from 13:30 to 17:00". */
export function openingHours(open: readonly OpenTime[], day: number): string {
  const start = clockOn(day, 0);
  return open
    .filter(({ from }) => from >= start && from < start + DAY)
    .map(({ from, to }) => `from ${formatClock(from - start)} to ${formatClock(to - start)}`)
    .join(' and ');
}
