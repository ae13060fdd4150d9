import { InvalidArgumentError } from 'commander';
import { parseQuantity } from '../units/index.js';

/** Reads a whole number of a range. */
export function wholeNumber(min: number, max: number): (text: string) => number {
  return (text) => {
    const value = /^\d+$/.test(text) ? Number(text) : NaN;
    if (!(value >= min && value <= max))
      throw new InvalidArgumentError(`It must be a whole number from ${min} to ${max}.`);
    return value;
  };
}

/** Reads one of these words. */
export function oneOf<const W extends string>(words: readonly W[]): (text: string) => W {
  return (text) => {
    const word = words.find((candidate) => candidate === text);
    if (word === undefined) throw new InvalidArgumentError(`It must be ${words.join(' or ')}.`);
    return word;
  };
}

/** Reads a number above 0. */
export function positive(text: string): number {
  const value = text.trim() === '' ? NaN : Number(text);
  if (!(value > 0 && value < Infinity)) throw new InvalidArgumentError('It must be a number above 0.');
  return value;
}

/** Reads a chance that is to be relied on, as 0.95 or 95 %. */
export function confidence(text: string): number {
  const [, digits = '', percent = ''] = /^\s*([\d.]+)\s*(%?)\s*$/.exec(text) ?? [];
  const value = digits === '' ? NaN : Number(digits) / (percent === '%' ? 100 : 1);
  if (!(value > 0.5 && value < 1))
    throw new InvalidArgumentError('It must be a chance above 0.5 and below 1, such as 0.95 or 95 %.');
  return value;
}

/** Reads a time above 0 with its unit, in seconds. */
export function timeAboveZero(text: string): number {
  const time = parseQuantity(text, 'duration');
  if (!(time.ok && time.value > 0 && time.value < Infinity))
    throw new InvalidArgumentError(
      `It must be a time above 0 with its unit, such as 5min or "1 min 30 s".${time.ok || time.hint === undefined ? '' : ` ${time.hint}`}`,
    );
  return time.value;
}

/** Reads a time, 0 included. */
export function timeFromZero(text: string): number {
  return text.trim() === '0' ? 0 : timeAboveZero(text);
}

/** Reads how sure something is to be: above 50 % and below 100 %. */
export function sureness(text: string): number {
  const share = parseQuantity(text, 'share');
  if (!(share.ok && share.value > 0.5 && share.value < 1))
    throw new InvalidArgumentError('It must be above 50 % and below 100 %, such as "95 %" or 0.95.');
  return share.value;
}

/** Reads which part of how many, as 3/8. */
export function shardOf(text: string): { number: number; of: number } {
  const [, k = NaN, n = NaN] = (/^(\d+)\/(\d+)$/.exec(text) ?? []).map(Number);
  if (!(k >= 1 && k <= n && n <= 1000)) throw new InvalidArgumentError('It must be like 3/8: part 3 of 8.');
  return { number: k - 1, of: n };
}

/** Reads names with commas between them. */
export function listed(text: string): string[] {
  const names = text.split(',').map((name) => name.trim());
  if (names.includes(''))
    throw new InvalidArgumentError('It must be names with commas between them, like a,b,c.');
  return names;
}

/** Reads a rule of the house and its limit, as it would stand in the file. */
export function ruleText(text: string): string {
  if (!/^[^=]*[^=\s][^=]*=.*\S/.test(text))
    throw new InvalidArgumentError('It must be a rule and its limit, like spills_per_hour=80.');
  return text.trim();
}
