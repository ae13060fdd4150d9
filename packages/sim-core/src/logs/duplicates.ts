import type { LogRow } from './logRow.js';
import { plainName } from './nearestName.js';
import type { ProblemList } from './problemList.js';
import type { FileRows } from './readRows.js';

/**
 * Leaves out rows that stand in two files: two people noted the same. Rows that say when somebody watched are no
 * duplicates, each says it of one log.
 *
 * @param rows by rising time
 */
export function duplicatesAmong(
  rows: readonly LogRow[],
  files: readonly FileRows[],
  problems: ProblemList,
): void {
  if (files.filter((file) => file.rows.length > 0).length < 2) return;
  let time = NaN;
  const seen = new Map<string, LogRow>();
  for (const row of rows) {
    if (row.time !== time) seen.clear();
    time = row.time;
    const { what, module, count, cause, file } = row;
    if (what === 'start' || what === 'end' || what === 'break' || what === 'resume' || what === 'note')
      continue;
    const of = files[file];
    const name = plainName(module === '' ? (of?.head['module'] ?? '') : module);
    const key = [of?.where, what, name, count, cause.toLowerCase()].join('\n');
    const first = seen.get(key);
    if (first === undefined) seen.set(key, row);
    else if (first.file !== file)
      problems.refuse(row, {
        code: 'duplicate',
        rule: `the same stands in line ${first.line} of another file`,
      });
  }
}
