import type { Columns } from './fileHead.js';
import type { LogHead } from './logHead.js';
import type { Fate, LogRow } from './logRow.js';
import { type LogWordMeaning, wordOf } from './logWords.js';
import { plainName } from './nearestName.js';
import type { KnownModule } from './knownModule.js';
import type { Complaint, ProblemList } from './problemList.js';
import { type CellValue, isFormula, plainCell, readCount, readLasted, readLevel } from './readCells.js';
import { COUNT_HINT, COUNT_MISSING, FORMULA, timeFault, wordFault } from './rowFaults.js';
import { timesOf } from './timesOf.js';
import type { CsvReader } from './readCsv.js';
import { asClock, asElapsed, readDay, readTime } from './readTime.js';

/** What a reader of rows needs to know of its file. */
export interface RowSource {
  readonly file: number;
  readonly columns: Columns;
  readonly head: LogHead;
  readonly modules: readonly KnownModule[];
  readonly problems: ProblemList;
}

/** So many rows are looked at before it is settled whether times are by the clock. */
const LOOKED_AT = 100;
/** Most balls a batch may have: no mechanism of a scenario lifts more. */
const MOST_IN_BATCH = 10_000;

interface Raw {
  readonly cells: readonly string[];
  readonly line: number;
  readonly start: number;
}

/** Reads the cells of each row of one file. */
export class RowReader implements CsvReader {
  private readonly rows: LogRow[] = [];
  private total = 0;
  private waiting: Raw[] = [];
  private readonly names = new Map<string, string>();
  private times: 'clock' | 'elapsed' | undefined;
  private readonly at: Readonly<Record<ColumnName, number>>;
  private readonly width: number;
  private readonly batch: number | undefined;
  private readonly basket: number | undefined;

  constructor(private readonly source: RowSource) {
    const { at } = source.columns.columns;
    this.at = Object.fromEntries(COLUMNS.map((name) => [name, at[name] ?? -1])) as Record<ColumnName, number>;
    this.width = 1 + Math.max(...Object.values(at).map((index) => index ?? 0));
    const { head } = source;
    this.times = this.headWord('times', ['clock', 'elapsed']) as 'clock' | 'elapsed' | undefined;
    this.headWord('log', ['bench', 'show']);
    this.batch = this.headNumber('batch', MOST_IN_BATCH);
    this.basket = this.headNumber('basket', Number.MAX_SAFE_INTEGER);
    if (head['day'] !== undefined && readDay(head['day']) === undefined)
      this.headFault('day', 'a day such as 2 or 2026-05-02');
  }

  row(cells: readonly string[], line: number, start: number, lines: number): void {
    if (cells.every((cell) => cell.trim() === '')) return;
    this.total++;
    if (lines > 1)
      this.look(
        { line, start },
        { code: 'quotes', rule: `a cell in quotes goes on over lines ${line} to ${line + lines - 1}` },
      );
    if (this.times !== undefined) return this.read({ cells, line, start });
    // Cells are parts of a batch of lines, which would be kept as a whole; that is no harm for a few.
    this.waiting.push({ cells, line, start });
    if (this.waiting.length >= LOOKED_AT) this.settle();
    return undefined;
  }

  fault(rule: string, line: number, start: number): void {
    this.total++;
    this.source.problems.leaveOut({ file: this.source.file, line, start }, { code: 'quotes', rule });
  }

  finish(): { readonly rows: LogRow[]; readonly total: number; readonly times: 'clock' | 'elapsed' } {
    const times = this.times ?? this.settle();
    if (times === 'elapsed' && this.source.head['day'] !== undefined)
      this.source.problems.look(
        { file: this.source.file, found: `day: ${this.source.head['day']}` },
        { code: 'not_understood', rule: NO_DAY },
      );
    return { times, rows: this.rows, total: this.total };
  }

  /** Decides how times are meant, and reads the rows that waited for it. */
  private settle(): 'clock' | 'elapsed' {
    const written = this.waiting.flatMap(({ cells }) => readTime(this.cell(cells, 'time')) ?? []);
    const times = timesOf(written);
    this.times = times;
    for (const raw of this.waiting) this.read(raw);
    this.waiting = [];
    return times;
  }

  private read({ cells, line, start }: Raw): void {
    const row = this.rowOf(cells, { line, start });
    if ('code' in row) this.source.problems.leaveOut({ file: this.source.file, line, start }, row);
    else this.rows.push(row);
  }

  /** The row, or why there is none. */
  private rowOf(
    cells: readonly string[],
    where: { readonly line: number; readonly start: number },
  ): LogRow | Complaint {
    const written = this.cell(cells, 'what');
    const meaning = wordOf(written);
    if (meaning === undefined) return wordFault(written);
    const time = this.timeOf(this.cell(cells, 'time'));
    if (typeof time === 'string') return timeFault(this.cell(cells, 'time'), time);
    const dayCell = this.cell(cells, 'day');
    const day = dayCell === '' ? time.day : readDay(dayCell);
    if (dayCell !== '' && day === undefined)
      return {
        code: 'not_understood',
        rule: 'the day is none',
        hint: 'Write its number, or a date such as 2026-05-02.',
      };
    if (day !== undefined && this.times === 'elapsed')
      this.look(where, { code: 'not_understood', rule: NO_DAY });
    const count = this.countOf(cells, meaning);
    if ('code' in count) return count;
    const lasted = readLasted(this.cell(cells, 'lasted'));
    if (!lasted.ok) return { code: 'not_understood', rule: lasted.rule };
    if (meaning.word === 'lap' && (lasted.value ?? 0) === 0)
      return {
        code: 'missing',
        rule: 'the time of the lap is missing',
        hint: 'Write it under "lasted", such as 4:10.',
      };
    this.tellExtras(cells, where);
    return {
      file: this.source.file,
      ...where,
      what: meaning.word,
      time: time.seconds,
      day,
      module: this.kept(this.cell(cells, 'module')),
      cause: this.kept(this.cell(cells, 'cause')),
      count: count.value,
      level: this.levelOf(cells, where),
      lasted: lasted.value,
      fate: 'open' as Fate,
    };
  }

  private levelOf(
    cells: readonly string[],
    where: { readonly line: number; readonly start: number },
  ): number | undefined {
    const text = this.cell(cells, 'level');
    return text === ''
      ? undefined
      : this.optional(readLevel(text, this.basketOf(this.cell(cells, 'module'))), where);
  }

  /** Balls that a basket holds, where that is known. */
  private basketOf(module: string): number | undefined {
    const name = plainName(module === '' ? (this.source.head['module'] ?? '') : module);
    return this.basket ?? this.source.modules.find(({ id }) => plainName(id) === name)?.basket;
  }

  private timeOf(
    cell: string,
  ): { readonly seconds: number; readonly day: number | undefined } | 'none' | 'no clock' {
    const time = readTime(cell);
    if (time === undefined) return 'none';
    if (this.times === 'elapsed')
      return time.kind === 'colons' && time.day !== undefined
        ? 'none'
        : { seconds: asElapsed(time), day: undefined };
    const seconds = time.kind === 'colons' ? asClock(time) : undefined;
    return seconds === undefined || time.kind !== 'colons' ? 'no clock' : { seconds, day: time.day };
  }

  private countOf(
    cells: readonly string[],
    { word, count }: LogWordMeaning,
  ): Complaint | { readonly value: number | undefined } {
    const text = this.cell(cells, 'count');
    if (isFormula(text)) return FORMULA;
    const read = readCount(text);
    if (!read.ok) return { code: 'impossible', rule: read.rule };
    const value = read.value ?? (word === 'batch' ? this.batch : undefined);
    if (word === 'batch' && value !== undefined && value > MOST_IN_BATCH)
      return { code: 'impossible', rule: `no mechanism lifts ${value} balls at once` };
    if (value !== undefined || count === undefined) return { value };
    return { code: 'missing', rule: COUNT_MISSING[count], hint: COUNT_HINT[count] };
  }

  /** What a cell says that a row can do without. */
  private optional(
    value: CellValue,
    where: { readonly line: number; readonly start: number },
  ): number | undefined {
    if (value.ok) return value.value;
    this.look(where, { code: 'not_understood', rule: `${value.rule}; the row counts without it` });
    return undefined;
  }

  /** Tells formulas that were kept as text, and cells behind the last column. */
  private tellExtras(
    cells: readonly string[],
    where: { readonly line: number; readonly start: number },
  ): void {
    for (const name of ['module', 'cause', 'note'] as const)
      if (isFormula(this.cell(cells, name)))
        this.look(where, {
          code: 'formula',
          rule: `the ${name} is a formula of a spreadsheet, taken as text`,
        });
    for (let i = this.width; i < cells.length; i++)
      if (cells[i] !== '' && i >= this.namedColumns())
        return this.look(where, {
          code: 'not_understood',
          rule: 'there are more cells than columns; the last are not read',
          hint: 'Put a text with the separator in it in quotes.',
        });
  }

  private namedColumns(): number {
    const { at, unknown, twice } = this.source.columns.columns;
    return Object.keys(at).length + unknown.length + twice.length;
  }

  /** One copy of each name: the text of a cell is a piece of many lines, which would be kept with it. */
  private kept(name: string): string {
    const known = this.names.get(name);
    if (known !== undefined) return known;
    this.names.set(name, name);
    return name;
  }

  private cell(cells: readonly string[], name: ColumnName): string {
    const at = this.at[name];
    return at < 0 ? '' : plainCell(cells[at]);
  }

  private look(where: { readonly line: number; readonly start: number }, complaint: Complaint): void {
    this.source.problems.look({ file: this.source.file, ...where }, complaint);
  }

  private headWord(key: string, words: readonly string[]): string | undefined {
    const written = this.source.head[key]?.toLowerCase();
    if (written === undefined || words.includes(written)) return written;
    this.headFault(key, words.join(' or '));
    return undefined;
  }

  private headNumber(key: string, most: number): number | undefined {
    const written = this.source.head[key];
    if (written === undefined) return undefined;
    const read = readCount(written);
    if (read.ok && read.value !== undefined && read.value >= 1 && read.value <= most) return read.value;
    this.headFault(key, 'a number of balls');
    return undefined;
  }

  private headFault(key: string, rule: string): void {
    const found = `${key}: ${this.source.head[key] ?? ''}`;
    this.source.problems.look(
      { file: this.source.file, found },
      { code: 'not_understood', rule: `this must be ${rule}; it is not read` },
    );
  }
}

const COLUMNS = ['time', 'day', 'module', 'what', 'cause', 'count', 'level', 'lasted', 'note'] as const;
type ColumnName = (typeof COLUMNS)[number];

const NO_DAY = 'a day is not read where times are since the start';
