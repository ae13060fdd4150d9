import { InputError, parseQuantity } from '@lapwright/sim-core';

/** A time in an option: with its unit as in a file, such as '5 min', or seconds as a number. */
export type Time = string | number;

/** An amount in an option: with its unit as in a file, such as '5 %', or a number in the unit of the figure. */
export type Amount = string | number;

/**
 * The seconds of a time in an option.
 *
 * @throws InputError when it is no time above 0
 * @example
 * secondsOf('watch', '2 min') // => 120
 */
export function secondsOf(option: string, time: Time): number {
  const read = typeof time === 'number' ? { ok: true, value: time } : parseQuantity(time, 'duration');
  const seconds = read.ok ? read.value : NaN;
  if (!(seconds > 0 && seconds < Infinity))
    throw outOfRange(option, time, "a time above 0 with its unit, such as '5 min', or a number of seconds");
  return seconds;
}

/**
 * How sure something is to be, as a share.
 *
 * @throws InputError when it is not above 50 % and below 100 %
 * @example
 * surenessOf('confidence', '95 %') // => 0.95
 */
export function surenessOf(option: string, share: Amount): number {
  const read = typeof share === 'number' ? { ok: true, value: share } : parseQuantity(share, 'share');
  const value = read.ok ? read.value : NaN;
  if (!(value > 0.5 && value < 1))
    throw outOfRange(option, share, "above 50 % and below 100 %, such as '95 %' or 0.95");
  return value;
}

/**
 * A whole number in an option.
 *
 * @throws InputError when it is none from `min` on
 * @example
 * wholeOf('moments', 8, 1) // => 8
 */
export function wholeOf(option: string, value: number, min: number): number {
  if (!(Number.isSafeInteger(value) && value >= min))
    throw outOfRange(option, value, `a whole number from ${min} on`);
  return value;
}

/** The fault of an option that has a value it cannot have. */
export function outOfRange(path: string, found: unknown, rule: string): InputError {
  return new InputError([{ code: 'out_of_range', path, found, rule }]);
}
