import type { LogRow } from './logRow.js';
import type { ModuleBook } from './moduleBook.js';
import type { Stretch } from './moduleRecord.js';
import type { ProblemList } from './problemList.js';

/** Seconds without a row, across midnight, after which watching is taken to have ended in between. */
const NIGHT = 4 * 3600;

/** What is known of a table before its first row. */
export interface WatchingStart {
  /** Whether its log has a row `start`; without one it begins with the first row. */
  readonly hasStart: boolean;
  /** Number of the day of a moment; the same for all moments where days are not known. */
  readonly dayOf: (time: number) => number;
  /** Rows `end` after which somebody else watched on. */
  readonly notYet: ReadonlySet<LogRow>;
}

/** When one table, a bench or the loop of a show, was watched; tells its modules when that is interrupted. */
export class Watching {
  readonly spans: Stretch[] = [];
  private since: number | undefined;
  private pause: LogRow | undefined;
  private ended: LogRow | undefined;
  private begun: LogRow | undefined;
  private last: LogRow | undefined;

  constructor(
    private readonly start: WatchingStart,
    private readonly books: ReadonlyMap<string, ModuleBook>,
    private readonly problems: ProblemList,
  ) {}

  /** Call with every row of the table first, in time order. */
  arrive(row: LogRow): void {
    const { last } = this;
    if (
      last !== undefined &&
      this.isNight(last, row) &&
      (this.since !== undefined || this.pause !== undefined)
    ) {
      this.problems.look(last, {
        code: 'never_ended',
        rule: 'the next row is of another day and there is no row "end"; taken as watched until here',
      });
      if (this.since !== undefined) this.close(last.time, 'end');
      this.pause = undefined;
      if (row.what !== 'start') this.open(row);
    } else if (!this.start.hasStart && this.begun === undefined) {
      this.open(row);
    }
    this.last = row;
  }

  /** Takes a row that says when the table was watched. */
  take(row: LogRow): void {
    const other = (than: LogRow | undefined): boolean => than !== undefined && than.file !== row.file;
    row.fate = 'used';
    const refuse = (rule: string): void => this.problems.refuse(row, { code: 'without_beginning', rule });
    switch (row.what) {
      case 'start':
        if (this.since === undefined) this.open(row);
        else if (!other(this.begun) && this.begun !== row)
          this.problems.look(row, { code: 'without_beginning', rule: 'it was started already' });
        break;
      case 'end':
        if (this.since === undefined && this.pause === undefined) {
          if (!other(this.ended)) refuse('it ends, but it was not started');
        } else if (!this.start.notYet.has(row)) {
          if (this.since !== undefined) this.close(row.time, 'end');
          this.pause = undefined;
          this.ended = row;
        }
        break;
      case 'break':
        if (this.since !== undefined) {
          this.close(row.time, 'break');
          this.pause = row;
        } else if (!other(this.pause)) {
          refuse(
            this.pause === undefined
              ? 'there is a break, but nobody watches'
              : `the break of line ${this.pause.line} is not over`,
          );
        }
        break;
      default:
        if (this.pause !== undefined) this.open(row);
        else if (this.begun === row)
          this.problems.look(row, {
            code: 'without_beginning',
            rule: 'a break is over that did not begin; taken as the start',
          });
        else if (!other(this.begun)) refuse('a break is over that did not begin');
    }
  }

  /** Whether a row falls into watched time; it is left out when not. */
  covers(row: LogRow): boolean {
    if (this.since !== undefined) return true;
    this.problems.refuse(row, { code: 'not_watched', ...this.whyNot() });
    return false;
  }

  /** Whether there is a break. */
  get paused(): boolean {
    return this.pause !== undefined;
  }

  /** Closes what is open when there are no more rows. */
  finish(): void {
    if (this.since === undefined || this.last === undefined) return;
    if (this.last.time > this.since || this.spans.length === 0)
      this.problems.look(this.last, {
        code: 'never_ended',
        rule: 'there is no row "end"; taken as watched until this row',
      });
    this.close(this.last.time, 'end');
  }

  private whyNot(): { readonly rule: string; readonly hint?: string } {
    if (this.pause !== undefined)
      return {
        rule: `there is a break since line ${this.pause.line}`,
        hint: 'Write a row "resume" at its end.',
      };
    if (this.ended !== undefined)
      return {
        rule: `watching ended in line ${this.ended.line}`,
        hint: 'If it went on, write a row "start".',
      };
    return { rule: 'it is before the start' };
  }

  private isNight(last: LogRow, row: LogRow): boolean {
    return (
      row.time - last.time > NIGHT &&
      this.start.dayOf(row.time) !== this.start.dayOf(last.time) &&
      row.what !== 'end' &&
      row.what !== 'cleared'
    );
  }

  private open(row: LogRow): void {
    this.since = row.time;
    this.begun = row;
    this.pause = undefined;
    this.ended = undefined;
    for (const book of this.books.values()) book.reopen(row.time);
  }

  private close(time: number, kind: 'break' | 'end'): void {
    if (this.since !== undefined && time > this.since) this.spans.push({ from: this.since, to: time });
    this.since = undefined;
    for (const book of this.books.values()) book.close(time, kind);
  }
}
