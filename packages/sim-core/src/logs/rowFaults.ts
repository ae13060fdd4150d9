import { LOG_WORDS } from './logWords.js';
import { nearestName } from './nearestName.js';
import type { Complaint } from './problemList.js';
import { isFormula } from './readCells.js';

/** A formula where a value must stand. */
export const FORMULA: Complaint = {
  code: 'formula',
  rule: 'this is a formula of a spreadsheet',
  hint: 'Write its value.',
};

/** What is missing when there is no count. */
export const COUNT_MISSING = {
  batch: 'how many balls came out is missing',
  balls: 'how many balls fell is missing',
  reading: 'what the counter shows is missing',
  minders: 'how many minders are on duty is missing',
} as const;

/** What to do about it. */
export const COUNT_HINT = {
  batch: 'Write the number under "count", or "# batch: 3" at the head of the file for all of them.',
  balls: 'Write the number under "count".',
  reading: 'Write the number under "count".',
  minders: 'Write the number under "count".',
} as const;

/** What is wrong with a word of the column `what`. */
export function wordFault(written: string): Complaint {
  const words = LOG_WORDS.map(({ word }) => word);
  if (written === '')
    return { code: 'missing', rule: 'what happened is missing', hint: `Write one of ${words.join(', ')}.` };
  if (isFormula(written)) return FORMULA;
  return {
    code: 'not_understood',
    rule: `"${written.slice(0, 40)}" is no word of the column "what"`,
    hint: nearestName(written, words) ?? `Known there: ${words.join(', ')}.`,
  };
}

/** What is wrong with a time; `no clock`: it is one, but not of a clock, as the others of its file are. */
export function timeFault(cell: string, why: 'none' | 'no clock'): Complaint {
  if (cell === '') return { code: 'missing', rule: 'the time is missing' };
  if (isFormula(cell)) return FORMULA;
  const point = /^(\d{1,2})\.(\d{2})$/.exec(cell);
  return {
    code: 'not_understood',
    rule: why === 'none' ? 'the time is none' : 'the time is none of a clock, as those of this file are',
    ...(point !== null && { hint: `Write ${point[1]}:${point[2]}.` }),
  };
}
