import { formatClock, formatSeconds } from '../../units/index.js';
import type { Moment } from '../fields/index.js';
import type { Found } from '../found.js';
import { clockOn, isPublic, openingHours, type OpenTime, publicUntil } from './publicTime.js';
import type { ShowTimes } from './toShow.js';

const DAY = 86400;

/** A part of a shift, public seconds after the first opening. */
export interface Part {
  readonly start: number;
  readonly end: number;
}

type ClockMoment = Extract<Moment, { kind: 'clock' }>;

/**
 * A moment as public seconds after the first opening: one, or one for each day when it is a time of day of no day in
 * particular. Reports a moment that is not in public time.
 */
export function publicSeconds(moment: Moment, show: ShowTimes): number[] | undefined {
  if (show.days === undefined || moment.kind === 'after_opening') {
    const seconds = secondsAfterOpening(moment, show);
    return seconds === undefined ? undefined : [seconds];
  }
  const { open, days } = show;
  if (open === undefined || !isDayOf(moment, days)) return undefined;
  const meant = moment.day === undefined ? Array.from({ length: days }, (_, d) => d + 1) : [moment.day];
  const closed = meant.find((day) => !isPublic(open, clockOn(day, moment.seconds)));
  if (closed !== undefined) {
    const others = meant.find((day) => isPublic(open, clockOn(day, moment.seconds)));
    return moment.found.report(
      'contradiction',
      `${formatClock(moment.seconds)} on day ${closed} is in closed time: the public is there ${openingHours(open, closed)}`,
      others === undefined
        ? undefined
        : `For one day alone write day ${others} ${formatClock(moment.seconds)}.`,
    );
  }
  return meant.map((day) => publicUntil(open, clockOn(day, moment.seconds)));
}

/**
 * The public parts of a shift: one, or one for each day when it is given by times of day of no day in particular. Closed
 * time that it reaches into does not count. Reports a shift that makes no sense.
 */
export function shiftParts(from: Moment, to: Moment, found: Found, show: ShowTimes): Part[] | undefined {
  const { days, open } = show;
  if (days === undefined) {
    const start = secondsAfterOpening(from, show);
    const end = secondsAfterOpening(to, show);
    if (start === undefined || end === undefined) return undefined;
    if (end <= start)
      return endsEarly(found, `${formatSeconds(end)} after the opening`, formatSeconds(start));
    return [{ start, end }];
  }
  if (open === undefined || !isDayOf(from, days) || !isDayOf(to, days)) return undefined;
  const begins = withDay(from, days);
  const ends = withDay(to, days, begins.kind === 'clock' ? begins.day : undefined);
  if (isEveryDay(begins) && isEveryDay(ends)) {
    if (ends.seconds <= begins.seconds)
      return endsEarly(found, formatClock(ends.seconds), formatClock(begins.seconds));
    return someOf(
      Array.from({ length: days }, (_, d) => ({
        start: publicUntil(open, clockOn(d + 1, begins.seconds)),
        end: publicUntil(open, clockOn(d + 1, ends.seconds)),
      })),
      found,
    );
  }
  for (const one of [begins, ends]) {
    if (isEveryDay(one)) {
      return one.found.report(
        'contradiction',
        'this time of day means every day, but the other end of the shift is one moment',
        `Write the day too: day 1 ${formatClock(one.seconds)}.`,
      );
    }
  }
  const start = oneMoment(begins, show, open);
  const end = oneMoment(ends, show, open);
  if (start === undefined || end === undefined) return undefined;
  // By the clock where both are: in closed time many moments are one public second.
  const early =
    begins.kind === 'clock' && ends.kind === 'clock' ? clockOf(ends) <= clockOf(begins) : end <= start;
  return early ? endsEarly(found, shown(ends), shown(begins)) : someOf([{ start, end }], found);
}

function endsEarly(found: Found, end: string, start: string): undefined {
  return found.report('contradiction', `this shift ends (${end}) before it begins (${start})`);
}

/** The parts that are not empty; reports a shift that has none. */
function someOf(parts: readonly Part[], found: Found): Part[] | undefined {
  const some = parts.filter(({ start, end }) => end > start);
  return some.length > 0
    ? some
    : found.report('contradiction', 'no part of this shift is in public time, so nobody would be on duty');
}

/** With one day only, that day is meant; and the end of a shift that begins on a certain day is on that day too. */
function withDay(moment: Moment, days: number, startDay?: number): Moment {
  const day = days === 1 ? 1 : startDay;
  return moment.kind === 'clock' && moment.day === undefined && day !== undefined
    ? { ...moment, day }
    : moment;
}

function isEveryDay(moment: Moment): moment is ClockMoment {
  return moment.kind === 'clock' && moment.day === undefined;
}

function isDayOf(moment: Moment, days: number): boolean {
  if (moment.kind === 'after_opening' || moment.day === undefined || moment.day <= days) return true;
  moment.found.report('out_of_range', `this is day ${moment.day}, but the show has ${days}`);
  return false;
}

function clockOf({ day = 1, seconds }: ClockMoment): number {
  return clockOn(day, seconds);
}

function oneMoment(moment: Moment, show: ShowTimes, open: readonly OpenTime[]): number | undefined {
  return moment.kind === 'clock' ? publicUntil(open, clockOf(moment)) : secondsAfterOpening(moment, show);
}

function shown(moment: Moment): string {
  return moment.kind === 'after_opening'
    ? `${formatSeconds(moment.seconds)} after the opening`
    : `day ${moment.day} ${formatClock(moment.seconds)}`;
}

/** A moment of a show of one stretch as seconds after the opening; reports one that is not within it. */
function secondsAfterOpening(moment: Moment, show: ShowTimes): number | undefined {
  const { opens, lasts } = show;
  if (moment.kind === 'clock' && moment.day !== undefined) {
    return moment.found.report(
      'contradiction',
      'a day is named, but the show is one stretch of time',
      'Write days: in the show section, or leave the day out.',
    );
  }
  if (moment.kind === 'clock' && opens === undefined) {
    return moment.found.report(
      'contradiction',
      'a time of day needs the opening time',
      'Write opens: 10:00 in the show section, or a time after the opening such as 90 min.',
    );
  }
  const seconds = moment.kind === 'clock' ? (moment.seconds - (opens ?? 0) + DAY) % DAY : moment.seconds;
  if (lasts !== undefined && seconds > lasts) {
    return moment.found.report(
      'out_of_range',
      `this is ${formatSeconds(seconds)} after the opening, but the show lasts ${formatSeconds(lasts)}`,
    );
  }
  return seconds;
}
