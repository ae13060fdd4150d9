import { parseQuantity } from '../units/index.js';
import { asElapsed, readTime } from './readTime.js';

/** What a cell says, nothing when it is empty, or what is wrong with it. */
export type CellValue =
  { readonly ok: true; readonly value: number | undefined } | { readonly ok: false; readonly rule: string };

/** No number or share is longer, and trying would take long. */
const LONGEST = 40;
const NO_SHARE = 'the level is not a share such as 70 %';
const EMPTY: CellValue = { ok: true, value: undefined };
const NUMBER = /^[+-]?\d+(?:[.,]\d+)?$/;

/** The text of a cell without what spreadsheets add to keep it a text; dashes stand for nothing. */
export function plainCell(cell: string | undefined): string {
  if (cell === undefined || cell === '') return '';
  const text = cell.trim();
  // Looked at by its first letter, because this is done for every cell.
  const first = text.charCodeAt(0);
  if (first === APOSTROPHE) return text.replace(/^'(?=[=+\-@\d'#])/, '');
  return text.length === 1 && DASHES.includes(text) ? '' : text;
}

const APOSTROPHE = 0x27;
const DASHES = '-\u2013\u2014';

/** True for a formula of a spreadsheet, which should have been written as its value. */
export function isFormula(text: string): boolean {
  return text !== '' && /^(?:[=@]|[+-](?![\d.,\s]|$)|#[A-Z])/.test(text);
}

/**
 * Reads a count.
 *
 * @example
 * [readCount('3'), readCount('3 balls'), readCount(''), readCount('-3')] // => [{ ok: true, value: 3 }, { ok: true, value: 3 }, { ok: true, value: undefined }, { ok: false, rule: 'there cannot be less than none' }]
 */
export function readCount(text: string): CellValue {
  if (text === '') return EMPTY;
  if (text.length > LONGEST) return { ok: false, rule: 'the count is no number' };
  const bare = /\d$/.test(text) ? text : text.replace(/\s*balls?$/i, '');
  if (!NUMBER.test(bare)) return { ok: false, rule: 'the count is no number' };
  const value = Number(bare.replace(',', '.'));
  if (value < 0) return { ok: false, rule: 'there cannot be less than none' };
  if (!Number.isInteger(value)) return { ok: false, rule: 'the count is not a whole number' };
  if (value > Number.MAX_SAFE_INTEGER) return { ok: false, rule: 'the count is too large to be one' };
  return { ok: true, value };
}

/**
 * Reads how full a basket stood, as a share of what it holds.
 *
 * @param basket balls it holds, if that is known: whole numbers are then balls
 * @example
 * [readLevel('70 %', undefined), readLevel('0,7', undefined), readLevel('75', 150)] // => [{ ok: true, value: 0.7 }, { ok: true, value: 0.7 }, { ok: true, value: 0.5 }]
 */
export function readLevel(text: string, basket: number | undefined): CellValue {
  if (text === '') return EMPTY;
  if (text.length > LONGEST) return { ok: false, rule: NO_SHARE };
  const point = text.replace(',', '.').replace(/\s*balls?$/i, '');
  const isBalls = /^\d+$/.test(point) && (basket !== undefined || Number(point) > 1);
  if (isBalls && basket === undefined)
    return { ok: false, rule: 'the level is in balls, but how many the basket holds is not known' };
  const parsed = parseQuantity(point, 'share');
  if (!parsed.ok) return { ok: false, rule: NO_SHARE };
  const value = isBalls && basket !== undefined ? Number(point) / basket : parsed.value;
  return value >= 0 && value <= 1
    ? { ok: true, value }
    : { ok: false, rule: 'the level is below nothing or above a full basket' };
}

/**
 * Reads how long something lasted, seconds.
 *
 * @example
 * [readLasted('1:20'), readLasted('40'), readLasted('2 min'), readLasted('soon')] // => [{ ok: true, value: 80 }, { ok: true, value: 40 }, { ok: true, value: 120 }, { ok: false, rule: 'how long it lasted is no time such as 40, 1:20 or 2 min' }]
 */
export function readLasted(text: string): CellValue {
  if (text === '') return EMPTY;
  const time = readTime(text);
  if (time === undefined || (time.kind === 'colons' && time.day !== undefined))
    return { ok: false, rule: 'how long it lasted is no time such as 40, 1:20 or 2 min' };
  return { ok: true, value: asElapsed(time) };
}
