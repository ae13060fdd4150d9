import { showValue } from './parameterError.js';

/** What kind of fault a {@link Problem} is; stable, for programs that sort or filter problems. */
export type ProblemCode =
  | 'unreadable' // the file is missing, a folder, too large, not text
  | 'syntax' // the file is not YAML or JSON
  | 'unknown_key' // a key that nothing reads
  | 'missing_key' // a key that must be there
  | 'wrong_type' // text where a list was expected, and the like
  | 'wrong_unit' // a quantity without its unit or with one of another kind
  | 'out_of_range' // a number too small, too large or not whole
  | 'unknown_name' // a name that refers to nothing
  | 'duplicate' // the same name twice
  | 'contradiction'; // two settings that cannot both hold

/** One fault in what a person wrote: where it is, what was found, what is allowed, and a hint how to mend it. */
export interface Problem {
  readonly code: ProblemCode;
  /** Path of keys inside the file, such as `modules.tipper.batch`; empty for the file as a whole. */
  readonly path: string;
  /** What was found, as it should be shown; absent when something is missing. */
  readonly found?: unknown;
  /** What is allowed, as the end of the sentence "... but must be ...", or a full statement for a missing key. */
  readonly rule: string;
  /** What to write instead, as a full sentence. */
  readonly hint?: string;
  readonly file?: string;
  /** Line in the file, from 1. */
  readonly line?: number;
  /** Column in the file, from 1. */
  readonly column?: number;
}

/**
 * A problem as one line of text: `file:line:column: path: found X, but this must be Y. Hint.`
 *
 * @example
 * describeProblem({ code: 'out_of_range', path: 'modules.tipper.batch', found: -4, rule: 'a whole number from 1 to 10000', file: 'my.yaml', line: 7, column: 12 }) // => 'my.yaml:7:12: modules.tipper.batch: found -4, but this must be a whole number from 1 to 10000.'
 */
export function describeProblem(problem: Problem): string {
  const place = [problem.file, problem.line, problem.column].filter((part) => part !== undefined).join(':');
  const fact =
    'found' in problem
      ? `found ${showFound(problem.found)}, but this must be ${problem.rule}.`
      : `${problem.rule}.`;
  const text = problem.hint ? `${fact} ${problem.hint}` : fact;
  return [place, problem.path, text]
    .filter((part) => part !== '')
    .join(': ')
    .replace(UNPRINTABLE, ' ');
}

/** What would move the cursor, colour the screen or turn the direction of writing. */
const UNPRINTABLE = /[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu;

function showFound(found: unknown): string {
  return found instanceof Description ? found.text : showValue(found);
}

/** A value described in words where the value itself would be too long or meaningless: "a list", "nothing". */
export class Description {
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
}
