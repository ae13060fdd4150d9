import Papa from 'papaparse';

/** Who is told what stands in a table, in the order of its lines. */
export interface CsvReader {
  /** A row: its cells, the line it begins on (from 1), where that line begins in the text, how many lines it takes. */
  row(cells: readonly string[], line: number, start: number, lines: number): void;
  /** A line that is no row because of its quote marks. */
  fault(rule: string, line: number, start: number): void;
}

/** A line of a text. */
export interface Line {
  readonly text: string;
  /** From 1. */
  readonly number: number;
  /** Where it begins in the text. */
  readonly start: number;
}

/** Lines handed to the CSV parser at once: enough that a call costs nothing, few enough to stay in the cache. */
const AT_ONCE = 1000;
/** A cell in quotes may go over so many lines. */
const MOST_LINES = 6;

/**
 * Cuts a text into lines, ended by CR LF, LF or CR.
 *
 * @param each called for each line in order
 */
export function eachLine(text: string, each: (line: Line) => void): void {
  const end = /\r\n|\r|\n/g;
  let start = 0;
  for (let number = 1; ; number++) {
    const match = end.exec(text);
    if (match === null) {
      if (start < text.length) each({ text: text.slice(start), number, start });
      return;
    }
    each({ text: text.slice(start, match.index), number, start });
    start = end.lastIndex;
  }
}

/**
 * Reads lines as CSV (RFC 4180) and hands over row by row.
 *
 * A row is a line, also where quote marks are wrong: damage never reaches beyond the line it is on. The one exception is
 * a cell in quotes with line breaks in it, as spreadsheets write them: such a row may go over six lines, none of which but
 * the first looks like a row by itself.
 */
export class CsvRows {
  private lines: Line[] = [];

  constructor(
    private readonly separator: string,
    private readonly reader: CsvReader,
  ) {}

  /** Takes the next line; blank ones count for nothing. */
  add(line: Line): void {
    if (line.text.trim() === '') return;
    this.lines.push(line);
    if (this.lines.length >= AT_ONCE) this.flush(false);
  }

  /** Call after the last line. */
  end(): void {
    this.flush(true);
  }

  private flush(final: boolean): void {
    const { lines, reader } = this;
    const all = this.parse(lines.map(({ text }) => text).join('\n'));
    if (all.errors.length === 0 && all.data.length === lines.length) {
      for (const [i, { number, start }] of lines.entries()) reader.row(all.data[i] ?? [], number, start, 1);
      this.lines = [];
      return;
    }
    let i = 0;
    for (; i < lines.length;) {
      // What may go on in lines that are not here yet waits for them.
      if (!final && i + MOST_LINES > lines.length) break;
      i += this.oneRow(i);
    }
    this.lines = lines.slice(i);
  }

  /** Reads the row that begins on a line; returns how many lines it takes. */
  private oneRow(i: number): number {
    const first = this.lines[i];
    if (first === undefined) return 1;
    let text = first.text;
    let { data, errors } = this.parse(text);
    const [error] = errors;
    if (error === undefined) {
      this.reader.row(data[0] ?? [], first.number, first.start, 1);
      return 1;
    }
    for (let k = 1; k < MOST_LINES && isOpen(errors); k++) {
      const next = this.lines[i + k];
      if (next === undefined || next.text.split(this.separator).length > 2) break;
      text += `\n${next.text}`;
      ({ data, errors } = this.parse(text));
      const [cells, second] = data;
      if (errors.length === 0 && cells !== undefined && second === undefined) {
        this.reader.row(cells, first.number, first.start, next.number - first.number + 1);
        return k + 1;
      }
    }
    this.reader.fault(
      error.code === 'MissingQuotes'
        ? 'a quote mark opens a cell and none closes it'
        : 'behind the quote mark that closes a cell the cell goes on',
      first.number,
      first.start,
    );
    return 1;
  }

  private parse(text: string): Papa.ParseResult<string[]> {
    return Papa.parse<string[]>(text, { delimiter: this.separator, newline: '\n' });
  }
}

function isOpen(errors: readonly Papa.ParseError[]): boolean {
  return errors.length > 0 && errors.every(({ code }) => code === 'MissingQuotes');
}
