import { checkColumns, noteComment, readColumnLine, type Columns } from './fileHead.js';
import { isComment, type LogHead } from './logHead.js';
import type { KnownModule } from './knownModule.js';
import type { LogRow } from './logRow.js';
import type { ProblemList } from './problemList.js';
import { CsvRows, eachLine, type Line } from './readCsv.js';
import { RowReader } from './rowReader.js';

/** The rows of one file that could be read, as they stand there. */
export interface FileRows {
  readonly head: LogHead;
  readonly where: 'bench' | 'show';
  /** How its times were read. */
  readonly times: 'clock' | 'elapsed';
  readonly separator: string;
  readonly rows: LogRow[];
  /** All rows it has, also those that could not be read. */
  readonly total: number;
}

/** Reads the rows of a file; those that cannot be read are told to the list of problems. */
export function readRows(
  text: string,
  file: number,
  problems: ProblemList,
  modules: readonly KnownModule[] = [],
): FileRows {
  const head: Partial<Record<string, string>> = {};
  let found: { readonly columns: Columns; readonly csv: CsvRows; readonly reader: RowReader } | undefined;
  let firstBad: Line | undefined;
  let unread = 0;
  eachLine(text, (line) => {
    if (isComment(line.text)) return noteComment(line, head, { file, early: found === undefined, problems });
    if (line.text.trim() === '') return undefined;
    if (found !== undefined) return found.csv.add(line);
    if (firstBad !== undefined) return void unread++;
    if (/^sep=.$/i.test(line.text.trim())) return undefined;
    const columns = readColumnLine(line.text);
    if (columns === undefined) {
      unread++;
      firstBad = line;
    } else if (checkColumns(columns.columns, line, { file, problems })) {
      const reader = new RowReader({ file, columns, head, problems, modules });
      found = { columns, reader, csv: new CsvRows(columns.separator, reader) };
    } else {
      firstBad = line;
    }
    return undefined;
  });
  if (found === undefined) {
    tellUnread(file, firstBad, unread, problems);
    return { head, where: kindOf(head), times: 'clock', separator: ',', rows: [], total: unread };
  }
  found.csv.end();
  const { rows, total, times } = found.reader.finish();
  return { head, where: kindOf(head), times, separator: found.columns.separator, rows, total };
}

/** Whether a log is of a bench or of a show. */
export function kindOf(head: LogHead): 'bench' | 'show' {
  const written = head['log']?.toLowerCase();
  if (written === 'bench' || written === 'show') return written;
  return head['module'] === undefined ? 'show' : 'bench';
}

function tellUnread(file: number, line: Line | undefined, rows: number, problems: ProblemList): void {
  const hint =
    'The first line must name the columns, such as time,module,what,cause,count,level,lasted,note.';
  const where = { file, ...(line !== undefined && { line: line.number, start: line.start }) };
  if (rows > 0)
    problems.leaveOut(
      where,
      { code: 'unreadable', rule: 'the rows cannot be read without their columns', hint },
      rows,
    );
  else problems.look(where, { code: 'unreadable', rule: 'there is no row in this file', hint });
}
