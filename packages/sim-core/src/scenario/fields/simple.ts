import { parseClock, parseQuantity, UNIT_EXAMPLES } from '../../units/index.js';
import type { Found } from '../found.js';
import { nearest } from '../nearest.js';
import type { Field } from './field.js';
import { quantity } from './quantity.js';

/** Free text of one line, or of several; nothing in it that a terminal or a page would obey. */
export function text(maxLength: number, options: { readonly lines?: boolean } = {}): Field<string> {
  const allowed = new RegExp(options.lines ? String.raw`^(${VISIBLE}|[\n\t])*$` : `^${VISIBLE}*$`, 'u');
  return {
    schema: { type: 'string', maxLength, pattern: allowed.source },
    read(found) {
      const { scalar } = found;
      if (typeof scalar !== 'string' && typeof scalar !== 'number')
        return found.wrong('wrong_type', 'a text');
      const value = String(scalar);
      if (value.length > maxLength)
        return found.wrong('out_of_range', `a text of at most ${maxLength} characters`);
      if (!allowed.test(value)) {
        return found.wrong(
          'wrong_type',
          `a text ${options.lines ? '' : 'of one line '}without control characters and changes of direction`,
        );
      }
      return value;
    },
  };
}

/** Any character but controls, line ends and changes of writing direction. */
const VISIBLE = String.raw`[^\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069]`;

/** One of a few words. */
export function choice<const W extends string>(words: readonly W[]): Field<W> {
  return {
    schema: { enum: words },
    read(found) {
      const word = words.find((candidate) => candidate === found.scalar);
      if (word !== undefined) return word;
      const written = found.scalar;
      const rule = words.length === 1 ? `${words[0]}` : `one of ${words.join(', ')}`;
      // All words stand in the rule: only the one that may have been meant is said again.
      const meant = typeof written === 'string' ? nearest(written, words) : undefined;
      return found.wrong('unknown_name', rule, meant === undefined ? undefined : `Did you mean ${meant}?`);
    },
  };
}

/** A plain number without a unit. */
export function plainNumber(limits: {
  readonly min: number;
  readonly max: number;
  readonly whole?: boolean;
}): Field<number> {
  const { min, max, whole = false } = limits;
  return {
    schema: { type: whole ? 'integer' : 'number', minimum: min, maximum: max },
    read(found) {
      const { scalar } = found;
      const rule = `${whole ? 'a whole number' : 'a number'} from ${min} to ${max}, without a unit`;
      if (typeof scalar !== 'number') return found.wrong('wrong_type', rule);
      const ok = scalar >= min && scalar <= max && (!whole || Number.isInteger(scalar));
      return ok ? scalar : found.wrong('out_of_range', rule);
    },
  };
}

/** A name that refers to something defined elsewhere in the file, kept with its place for a later check. */
export interface Reference {
  readonly name: string;
  readonly found: Found;
}

/** A reference to a module, template or the like; whether it exists is checked when all names are known. */
export function reference(what: string): Field<Reference> {
  return {
    schema: { type: ['string', 'number'] },
    read(found) {
      const { scalar } = found;
      if (typeof scalar !== 'string' && typeof scalar !== 'number')
        return found.wrong('wrong_type', `the name of ${what}`);
      return { name: String(scalar), found };
    },
  };
}

/** A moment of the show: so long after the opening, or a time of day once the opening times are known. */
export type Moment =
  | { readonly kind: 'after_opening'; readonly seconds: number; readonly found: Found }
  /** Seconds after midnight; of one day of the show, from 1, or of no day in particular. */
  | { readonly kind: 'clock'; readonly seconds: number; readonly day?: number; readonly found: Found };

const CLOCK = String.raw`([01]?\d|2[0-3]):[0-5]\d`;
const CLOCK_SCHEMA = { type: 'string', pattern: String.raw`^\s*${CLOCK}\s*$` };
const MOMENT_SCHEMA = { type: 'string', pattern: String.raw`^\s*(day\s+[1-9]\d?\s+)?${CLOCK}\s*$` };

/** A moment: `1 h 30 min` after the opening, `11:30` by the clock, or `day 2 11:30`. */
export const moment: Field<Moment> = {
  schema: { anyOf: [quantity('duration', { min: 0, max: 60 * 86400 }).schema, MOMENT_SCHEMA] },
  read(found) {
    const { scalar } = found;
    const [, day, time = ''] =
      typeof scalar === 'string' ? (/^\s*(?:day\s+([1-9]\d?)\s+)?(\S+)\s*$/.exec(scalar) ?? []) : [];
    const clock = parseClock(time);
    if (clock !== undefined)
      return { kind: 'clock', seconds: clock, ...(day !== undefined && { day: Number(day) }), found };
    const parsed = parseQuantity(scalar, 'duration');
    const rule = `a time after the opening, such as ${UNIT_EXAMPLES.duration}, or a time of day such as 11:30 or day 2 11:30`;
    if (!parsed.ok) return found.wrong('wrong_unit', rule, parsed.hint);
    if (!(parsed.value >= 0 && parsed.value <= 60 * 86400)) return found.wrong('out_of_range', rule);
    return { kind: 'after_opening', seconds: parsed.value, found };
  },
};

/** The opening time: a time of day. */
export const timeOfDay: Field<number> = {
  schema: CLOCK_SCHEMA,
  read(found) {
    const clock = typeof found.scalar === 'string' ? parseClock(found.scalar) : undefined;
    return clock ?? found.wrong('wrong_type', 'a time of day such as 10:00');
  },
};
