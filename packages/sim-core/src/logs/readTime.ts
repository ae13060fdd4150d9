import { parseQuantity } from '../units/index.js';

/** A day as written: number of a day of the show from 1, or days since 1970-01-01, which are above 9999. */
export type Day = number;

/** A time as written, before it is known whether the file is by the clock or since the start. */
export type WrittenTime =
  /** With colons: hours and minutes, or minutes and seconds. `seconds` are those behind the second colon. */
  | {
      readonly kind: 'colons';
      readonly first: number;
      readonly second: number;
      readonly seconds?: number;
      readonly day?: Day;
    }
  /** Behind one colon there was a fraction: minutes and seconds. */
  | { readonly kind: 'seconds'; readonly seconds: number };

const COLONS = /^(?:(\S.*?)(?:[T,\s]\s*))?(\d{1,4}):(\d{1,2})(?::(\d{1,2}(?:[.,]\d+)?)|([.,]\d+))?$/;
const LONGEST = 40;
const NUMBER = /^\d+(?:[.,]\d+)?$/;

/**
 * Reads a cell with a time.
 *
 * @returns undefined when it is none
 * @example
 * [readTime('10:05'), readTime('day 2 10:05:03.5'), readTime('0:12.5'), readTime('12.5'), readTime('3 min 20 s')] // => [{ kind: 'colons', first: 10, second: 5 }, { kind: 'colons', first: 10, second: 5, seconds: 3.5, day: 2 }, { kind: 'seconds', seconds: 12.5 }, { kind: 'seconds', seconds: 12.5 }, { kind: 'seconds', seconds: 200 }]
 */
export function readTime(cell: string): WrittenTime | undefined {
  // No time is so long, and trying would take long too.
  if (cell.length > LONGEST) return undefined;
  if (NUMBER.test(cell)) return { kind: 'seconds', seconds: decimal(cell) };
  const match = COLONS.exec(cell);
  if (match === null) {
    const quantity = parseQuantity(cell.replace(/(\d),(\d)/, '$1.$2'), 'duration');
    return quantity.ok && quantity.value >= 0 ? { kind: 'seconds', seconds: quantity.value } : undefined;
  }
  const [, dayText, first = '', second = '', third, fraction] = match;
  if (Number(second) > 59 || (third !== undefined && decimal(third) >= 60)) return undefined;
  if (fraction !== undefined)
    return dayText === undefined
      ? { kind: 'seconds', seconds: exact(Number(first) * 60, decimal(`${second}${fraction}`)) }
      : undefined;
  const day = dayText === undefined ? undefined : readDay(dayText);
  if (dayText !== undefined && day === undefined) return undefined;
  return {
    kind: 'colons',
    first: Number(first),
    second: Number(second),
    ...(third !== undefined && { seconds: decimal(third) }),
    ...(day !== undefined && { day }),
  };
}

/** Seconds after midnight of a time with colons taken as clock time; undefined when no clock shows it. */
export function asClock({
  first,
  second,
  seconds = 0,
}: WrittenTime & { kind: 'colons' }): number | undefined {
  return first < 24 || (first === 24 && second === 0 && seconds === 0)
    ? exact(first * 3600 + second * 60, seconds)
    : undefined;
}

/** Seconds of any time taken as time since the start. */
export function asElapsed(time: WrittenTime): number {
  if (time.kind === 'seconds') return time.seconds;
  const { first, second, seconds } = time;
  return seconds === undefined ? first * 60 + second : exact(first * 3600 + second * 60, seconds);
}

/** The sum rounded to the microsecond, so that 36000 and 3.456 are the double that is written 36003.456. */
function exact(whole: number, seconds: number): number {
  return Math.round(whole * 1e6 + seconds * 1e6) / 1e6;
}

/** A number with a decimal point or comma. */
function decimal(text: string): number {
  return Number(text.replace(',', '.'));
}

/**
 * Reads a day: `2`, `day 2`, `2026-05-02` or `2.5.2026`.
 *
 * @returns its number, or days since 1970-01-01; undefined when it is none
 * @example
 * [readDay('day 2'), readDay('1970-04-11') === undefined, readDay('2000-01-01'), readDay('1.1.2000'), readDay('2/5')] // => [2, true, 10957, 10957, undefined]
 */
export function readDay(text: string): Day | undefined {
  const plain = text.trim().toLowerCase();
  const [, number] = /^(?:day\s*)?([1-9]\d{0,2})$/.exec(plain) ?? [];
  if (number !== undefined) return Number(number);
  const iso = /^(\d{4})-(\d{1,2})-(\d{1,2})$/.exec(plain);
  if (iso !== null) return dateOf(Number(iso[1]), Number(iso[2]), Number(iso[3]));
  const dots = /^(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})$/.exec(plain);
  return dots === null ? undefined : dateOf(Number(dots[3]), Number(dots[2]), Number(dots[1]));
}

/** Days below this are numbers of days, those from it on are dates. */
export const FIRST_DATE = 10000;

function dateOf(year: number, month: number, day: number): Day | undefined {
  const time = Date.UTC(year, month - 1, day);
  const date = new Date(time);
  const days = time / 86_400_000;
  return date.getUTCMonth() === month - 1 && date.getUTCDate() === day && days >= FIRST_DATE
    ? days
    : undefined;
}
