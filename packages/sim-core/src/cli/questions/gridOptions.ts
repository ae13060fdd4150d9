import { type Grid, tidy } from '../../studies/index.js';
import { argumentFault } from './argumentFault.js';

/** Options that say which values are tried. */
export interface GridOptions {
  readonly from?: string;
  readonly to?: string;
  readonly step?: string;
  readonly values?: string;
}

/** Values as typed: numbers, and the unit that stands behind them, '' when none does. */
export interface TypedValues {
  readonly values: readonly number[];
  readonly unit: string;
}

/** What values may be. */
export interface ValueRule {
  readonly min: number;
  readonly whole: boolean;
  /** What a value is, in the plural: "numbers of balls". */
  readonly called: string;
}

/** More than anybody waits for. */
const MOST_VALUES = 50;

const NUMBER = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*([A-Za-z%][A-Za-z%/]*)?$/;

/** A number with the unit behind it; undefined when it is none. */
export function numberWithUnit(text: string): { value: number; unit: string } | undefined {
  const [, number, unit = ''] = NUMBER.exec(text.trim()) ?? [];
  return number === undefined ? undefined : { value: Number(number), unit };
}

/**
 * The values that were typed, rising; undefined when none were.
 *
 * @throws InputError when they make no sense
 */
export function typedValues(options: GridOptions): TypedValues | undefined {
  const { from, to, step, values } = options;
  if (values !== undefined) {
    if (from !== undefined || to !== undefined || step !== undefined)
      throw argumentFault(
        '--values',
        'the values are said twice, here and by --from, --to or --step',
        'Leave one of them out.',
      );
    return sameUnit(
      '--values',
      values.split(',').map((text) => readNumber(text, '--values')),
    );
  }
  if (from === undefined && to === undefined && step === undefined) return undefined;
  if (from === undefined || to === undefined)
    throw argumentFault(
      from === undefined ? '--from' : '--to',
      'a range needs both its ends',
      'Write --from 400 --to 600, and --step 50 if you like.',
    );
  const [first, last, by] = [
    readNumber(from, '--from'),
    readNumber(to, '--to'),
    step === undefined ? undefined : readNumber(step, '--step'),
  ];
  const { unit } = sameUnit('--from', [first, last, ...(by ? [by] : [])]);
  const width = last.value - first.value;
  if (!(width > 0))
    throw argumentFault(
      '--to',
      `${to} is not above ${from}`,
      'Write the lower end behind --from.',
      'out_of_range',
    );
  if (by !== undefined && !(by.value > 0))
    throw argumentFault(
      '--step',
      `${step} is no step from one value to the next`,
      'It must be above 0.',
      'out_of_range',
    );
  const size = by?.value ?? Number((width / 8).toPrecision(1));
  const count = Math.floor(width / size + 1e-9) + 1;
  if (count > MOST_VALUES)
    throw argumentFault(
      '--step',
      `from ${from} to ${to} that would be ${count} values, at most ${MOST_VALUES} are tried`,
      'Take larger steps.',
      'out_of_range',
    );
  return { values: Array.from({ length: count }, (_, i) => tidy(first.value + i * size)), unit };
}

/**
 * The grid that was typed.
 *
 * @throws InputError when a value is not of the kind that is varied
 */
export function typedGrid({ values }: TypedValues, { min, whole, called }: ValueRule): Grid {
  const option = '--values, --from, --to, --step';
  const rising = [...new Set(values)].toSorted((a, b) => a - b);
  const wrong = rising.find((value) => value < min || (whole && !Number.isInteger(value)));
  if (wrong !== undefined)
    throw argumentFault(
      option,
      `${wrong} is none of the ${called} there can be`,
      `Write ${whole ? 'whole numbers' : 'numbers'}${min > -Infinity ? ` from ${min}` : ''}.`,
      'out_of_range',
    );
  if (rising.length < 2)
    throw argumentFault(
      option,
      'there is only one value to try',
      'Name two at least, such as --values 400,500.',
    );
  if (rising.length > MOST_VALUES)
    throw argumentFault(
      option,
      `there are ${rising.length} values, at most ${MOST_VALUES} are tried`,
      'Take fewer.',
      'out_of_range',
    );
  return { values: rising, step: 1, min, whole, fixed: true };
}

function readNumber(text: string, option: string): { value: number; unit: string } {
  const read = numberWithUnit(text);
  if (read === undefined)
    throw argumentFault(
      option,
      `"${text.slice(0, 60)}" is no number`,
      'Such as 400, or 400,500,600 for --values; a unit may stand behind it, as in "20 s".',
      'wrong_type',
    );
  return read;
}

function sameUnit(option: string, read: readonly { value: number; unit: string }[]): TypedValues {
  const units = [...new Set(read.map(({ unit }) => unit).filter((unit) => unit !== ''))];
  if (units.length > 1)
    throw argumentFault(
      option,
      `the values have different units: ${units.join(', ')}`,
      'Write all in one unit.',
      'wrong_unit',
    );
  return { values: read.map(({ value }) => value), unit: units[0] ?? '' };
}
