import type { LogFault, LogProblem } from './logProblem.js';
import type { LogRow } from './logRow.js';

/** What a problem says besides where it is. */
export interface Complaint {
  readonly code: LogFault;
  readonly rule: string;
  readonly hint?: string | undefined;
}

/** Collects what is wrong in the files of one reading. */
export class ProblemList {
  readonly problems: LogProblem[] = [];

  /** @param sources names and texts of the files */
  constructor(private readonly sources: readonly { readonly file: string; readonly text: string }[]) {}

  /** Something that counts all the same. */
  look(where: Where, complaint: Complaint): void {
    this.add('kept, but look', where, complaint, 0);
  }

  /** A line that is no row that could be used, or so many rows. */
  leaveOut(where: Where, complaint: Complaint, rows = 1): void {
    this.add('left out', where, complaint, rows);
  }

  /** A row that was read and cannot be used. */
  refuse(row: LogRow, complaint: Complaint): void {
    row.fate = 'left out';
    this.leaveOut(row, complaint);
  }

  /** All problems, file by file and line by line. */
  sorted(): readonly LogProblem[] {
    const order = new Map(this.sources.map(({ file }, i) => [file, i]));
    return this.problems.toSorted(
      (a, b) => (order.get(a.file) ?? 0) - (order.get(b.file) ?? 0) || (a.line ?? 0) - (b.line ?? 0),
    );
  }

  private add(severity: LogProblem['severity'], where: Where, complaint: Complaint, rows: number): void {
    const { file, text } = this.sources[where.file] ?? { file: '', text: '' };
    const { code, rule, hint } = complaint;
    this.problems.push({
      severity,
      code,
      file,
      ...(where.line !== undefined && { line: where.line }),
      found: where.found ?? (where.start === undefined ? '' : lineAt(text, where.start)),
      rule,
      ...(hint !== undefined && { hint }),
      rows,
    });
  }
}

/** A place in one of the files; what stood there is taken from its text when it is not given. */
export interface Where {
  readonly file: number;
  readonly line?: number;
  readonly start?: number;
  readonly found?: string;
}

/** As much of a line as a message shows. */
const MOST_SHOWN = 200;

function lineAt(text: string, start: number): string {
  const line = text.slice(start, start + MOST_SHOWN);
  const end = line.search(/[\r\n]/);
  // A copy: a slice would keep the whole text in memory.
  return JSON.parse(JSON.stringify(end < 0 ? line : line.slice(0, end))) as string;
}
