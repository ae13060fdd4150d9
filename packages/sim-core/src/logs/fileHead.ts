import { HEAD_KEYS, readHeadLine } from './logHead.js';
import { findColumns, type FoundColumns, LOG_COLUMNS } from './logColumns.js';
import { nearestName } from './nearestName.js';
import type { ProblemList } from './problemList.js';
import { type Line } from './readCsv.js';

/** What the first line that is no comment turned out to be. */
export interface Columns {
  readonly separator: string;
  readonly columns: FoundColumns;
}

/** Takes note of a comment line; keys that nothing reads are told. */
export function noteComment(
  line: Line,
  head: Partial<Record<string, string>>,
  {
    file,
    early,
    problems,
  }: { readonly file: number; readonly early: boolean; readonly problems: ProblemList },
): void {
  const read = readHeadLine(line.text);
  const where = { file, line: line.number, start: line.start };
  if (read.kind === 'comment') return;
  if (read.kind === 'unknown') {
    const hint = nearestName(
      read.key,
      HEAD_KEYS.map(({ key }) => key),
    );
    if (hint !== undefined)
      problems.look(where, { code: 'not_understood', rule: `nothing reads "${read.key}:"`, hint });
    return;
  }
  if (!early)
    problems.look(where, {
      code: 'not_understood',
      rule: `"${read.key}:" is read only before the names of the columns`,
    });
  else if (head[read.key] !== undefined)
    problems.look(where, { code: 'duplicate', rule: `"${read.key}:" stands there twice; the first counts` });
  else head[read.key] = read.value;
}

/**
 * Finds the separator and the columns in the line that names them: the separator with which most names are known.
 *
 * @returns undefined when the line names neither time nor what
 * @example
 * readColumnLine('Time;what;note')?.separator // => ';'
 */
export function readColumnLine(text: string): Columns | undefined {
  const tries = [',', ';', '\t'].map((separator) => ({
    separator,
    columns: findColumns(text.split(separator)),
  }));
  const [best] = tries.toSorted((a, b) => known(b) - known(a));
  return best !== undefined &&
    (best.columns.at['time'] !== undefined || best.columns.at['what'] !== undefined)
    ? best
    : undefined;
}

function known({ columns }: Columns): number {
  return Object.keys(columns.at).length;
}

/** Tells what is odd about the columns; false when the rows cannot be read without what is missing. */
export function checkColumns(
  { unknown, twice, at }: FoundColumns,
  line: Line,
  { file, problems }: { readonly file: number; readonly problems: ProblemList },
): boolean {
  const where = { file, line: line.number, start: line.start };
  const names = LOG_COLUMNS.map(({ name }) => name);
  for (const name of unknown)
    problems.look(where, {
      code: 'not_understood',
      rule: `nothing reads the column "${name}"`,
      hint: nearestName(name, names),
    });
  for (const name of twice)
    problems.look(where, {
      code: 'duplicate',
      rule: `"${name}" is the second column of its kind; the first counts`,
    });
  const missing = ['time', 'what'].filter((name) => at[name] === undefined);
  if (missing.length === 0) return true;
  problems.look(where, {
    code: 'unreadable',
    rule: `there is no column ${missing.map((name) => `"${name}"`).join(' and no ')}`,
  });
  return false;
}
