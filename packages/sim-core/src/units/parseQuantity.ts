import { BARE_NUMBERS, type Dimension, UNIT_EXAMPLES, UNITS } from './dimension.js';

/** A quantity in its base unit, or why the text is none and what to write instead. */
export type ParsedQuantity =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly rule: string; readonly hint?: string };

const NUMBER = String.raw`[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?`;
const PART = new RegExp(String.raw`^\s*(${NUMBER})\s*([A-Za-z%][A-Za-z%/]*)?`);

/**
 * Reads a quantity: a number with its unit, such as `3.6 s`, `1 h 30 min`, `8 studs` or `5 %`.
 *
 * Seconds, balls per second, millimetres, shares from 0 to 1 and balls come out. Shares and balls may be bare numbers;
 * everything else must carry a unit.
 *
 * @param input text or number as found in a file
 * @example
 * parseQuantity('1 h 30 min', 'duration') // => { ok: true, value: 5400 }
 * @example
 * parseQuantity('12', 'duration').ok // => false
 */
export function parseQuantity(input: unknown, dimension: Dimension): ParsedQuantity {
  const rule = `${RULES[dimension]}, such as ${UNIT_EXAMPLES[dimension]}`;
  if (typeof input === 'number') {
    if (!Number.isFinite(input)) return { ok: false, rule };
    if (BARE_NUMBERS.includes(dimension)) return { ok: true, value: input };
    return { ok: false, rule, hint: unitHint(input, dimension) };
  }
  if (typeof input !== 'string') return { ok: false, rule };
  return parseText(input, dimension, rule);
}

const RULES: { readonly [dimension in Dimension]: string } = {
  duration: 'a time with its unit',
  rate: 'a rate with its unit',
  length: 'a length with its unit',
  share: 'a share',
  balls: 'a number of balls',
};

function parseText(text: string, dimension: Dimension, rule: string): ParsedQuantity {
  const units = UNITS[dimension];
  let rest = text;
  let value = 0;
  let parts = 0;
  let sign = 1;
  let lastSize = Infinity;
  while (rest.trim() !== '') {
    const match = PART.exec(rest);
    if (match === null) return { ok: false, rule, ...hintFor(text, dimension) };
    const [whole, number = '', unit] = match;
    rest = rest.slice(whole.length);
    if (unit === undefined) {
      if (parts > 0 || rest.trim() !== '' || !BARE_NUMBERS.includes(dimension)) {
        return { ok: false, rule, ...hintFor(text, dimension) };
      }
      return { ok: true, value: Number(number) };
    }
    const size = Object.hasOwn(units, unit) ? units[unit] : undefined;
    if (size === undefined) return { ok: false, rule, ...hintFor(text, dimension, unit) };
    // In "1 h 30 min" units fall, and only the first part may carry a sign, which counts for the whole.
    if (parts > 0 && (dimension !== 'duration' || size >= lastSize || /^[+-]/.test(number)))
      return { ok: false, rule };
    if (parts === 0 && number.startsWith('-')) sign = -1;
    // Dividing by a whole number keeps 7 % at the double nearest to 0.07; multiplying by 0.01 does not.
    value += size < 1 ? Math.abs(Number(number)) / Math.round(1 / size) : Math.abs(Number(number)) * size;
    lastSize = size;
    parts++;
  }
  return parts > 0 ? { ok: true, value: sign * value } : { ok: false, rule };
}

function hintFor(text: string, dimension: Dimension, unit?: string): { readonly hint?: string } {
  if (/^\s*[+-]?\d+,\d+/.test(text)) {
    return { hint: `Write a decimal point, not a comma: ${text.trim().replace(',', '.')}.` };
  }
  const number = /^\s*[+-]?[\d.]+(?:[eE][+-]?\d+)?\s*$/.exec(text);
  if (number) return { hint: unitHint(Number(text), dimension) };
  if (unit !== undefined) {
    const known = Object.keys(UNITS[dimension]).join(', ');
    const sameButCase = Object.keys(UNITS[dimension]).find(
      (name) => name.toLowerCase() === unit.toLowerCase(),
    );
    const word = sameButCase ?? LONG_NAMES[unit.toLowerCase()];
    const suggestion =
      word !== undefined && Object.hasOwn(UNITS[dimension], word) ? ` Did you mean ${word}?` : '';
    return { hint: `The units here are ${known}.${suggestion}` };
  }
  return {};
}

const LONG_NAMES: Readonly<Record<string, string>> = {
  sec: 's',
  secs: 's',
  second: 's',
  seconds: 's',
  m: 'min',
  mins: 'min',
  minute: 'min',
  minutes: 'min',
  hr: 'h',
  hrs: 'h',
  hour: 'h',
  hours: 'h',
  day: 'd',
  days: 'd',
  millimetres: 'mm',
  millimeters: 'mm',
  percent: '%',
  pct: '%',
};

/** Which unit was meant nobody can know: the usual ones are named. */
function unitHint(value: number, dimension: Dimension): string {
  const [first = '', ...others] = USUAL_UNITS[dimension].map((unit) => `${value} ${unit}`);
  return `Write the unit, such as ${[first, ...others].join(' or ')}.`;
}

const USUAL_UNITS: { readonly [dimension in Dimension]: readonly string[] } = {
  duration: ['s', 'min', 'h'],
  rate: ['bps', 'balls/min'],
  length: ['mm', 'studs', 'bricks'],
  share: ['%'],
  balls: ['balls'],
};
