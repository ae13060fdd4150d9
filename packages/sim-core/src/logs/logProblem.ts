import { showValue } from '../errors/index.js';

/** What kind of fault a {@link LogProblem} is; stable, for programs that sort or filter. */
export type LogFault =
  | 'unreadable' // a file without columns that can be read, or in an encoding that had to be guessed
  | 'quotes' // a quote mark that is opened and not closed, or stands in the middle
  | 'missing' // a cell that must be filled in
  | 'not_understood' // a cell that is no time, number, level or known word
  | 'formula' // a formula of a spreadsheet instead of its value
  | 'impossible' // a number that cannot be, such as half a ball
  | 'unknown_module' // a module that is not in the scenario
  | 'time_runs_back'
  | 'counter_runs_back'
  | 'overlap' // a stop of a module that is stopped already
  | 'without_beginning' // cleared without a stop, back without pulled, resume without break
  | 'never_ended' // a stop never cleared, a log without an end
  | 'off_the_loop' // something of a module that was pulled
  | 'not_watched' // before the start, in a break or after the end
  | 'duplicate';

/** Something in a log that a person should look at. */
export interface LogProblem {
  /** Whether the row counts for nothing, or counts and may be wrong. */
  readonly severity: 'left out' | 'kept, but look';
  readonly code: LogFault;
  readonly file: string;
  /** Line in the file, from 1; absent when it is about the whole file. */
  readonly line?: number;
  /** What stood there. */
  readonly found: string;
  /** What is wrong with it, as the beginning of a sentence. */
  readonly rule: string;
  /** What to write instead, as a full sentence. */
  readonly hint?: string;
  /** How many rows are left out through it: 0 when kept. */
  readonly rows: number;
}

/**
 * A problem of a log as one line of text: `file:line: left out: found X: why. Hint.`
 *
 * @example
 * describeLogProblem({ severity: 'left out', code: 'without_beginning', file: 'saturday.csv', line: 7, found: '10:05,old-mill,cleared', rule: 'it is cleared, but no stop was written down', rows: 1 }) // => 'saturday.csv:7: left out: found "10:05,old-mill,cleared": it is cleared, but no stop was written down.'
 */
export function describeLogProblem(problem: LogProblem): string {
  const { severity, file, line, found, rule, hint, rows } = problem;
  const place = line === undefined ? file : `${file}:${line}`;
  const many = rows > 1 ? ` (${rows} rows)` : '';
  const fact = found === '' ? rule : `found ${showValue(found)}: ${rule}`;
  return `${place}: ${severity}${many}: ${fact}.${hint === undefined ? '' : ` ${hint}`}`.replace(
    UNPRINTABLE,
    ' ',
  );
}

/** What would move the cursor, colour the screen or turn the direction of writing. */
const UNPRINTABLE = /[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu;
