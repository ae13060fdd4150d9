import type { LogRow } from './logRow.js';
import type { BallsSeen, BatchSeen, ModuleRecord, StopSeen, Stretch } from './moduleRecord.js';
import type { ProblemList } from './problemList.js';
import { without } from './stretches.js';

/** What is known of a module before its first row. */
export interface BookStart {
  readonly module: string;
  readonly builder?: string;
  readonly design?: string;
  readonly where: 'bench' | 'show';
  /** Whether it lies on the side table at first. */
  readonly spare: boolean;
}

type Writable<T> = { -readonly [K in keyof T]: T[K] };

/** A batch that has so many times the usual number of balls is told. */
const FAR_ABOVE = 5;

/** Keeps the books of one module, row by row in time order. */
export class ModuleBook {
  private readonly stops: Writable<StopSeen>[] = [];
  private readonly batches: BatchSeen[] = [];
  private readonly batchRows: LogRow[] = [];
  private readonly spills: BallsSeen[] = [];
  /** When it was not there, or stopped for a time that nobody can count. */
  private readonly off: Stretch[] = [];
  private rows = 0;
  /** The stop that lasts; `until` where its row says how long. */
  private open:
    { readonly stop: Writable<StopSeen>; readonly row: LogRow; readonly until?: number } | undefined;
  /** A stop that lasted on when a break began, or the night: then it may have been cleared before the next start. */
  private left: { readonly row: LogRow; since: number; overnight: boolean } | undefined;
  /** Off the loop. */
  private out: { readonly row?: LogRow; readonly since: number } | undefined;

  constructor(
    private readonly start: BookStart,
    private readonly problems: ProblemList,
  ) {
    if (start.spare) this.out = { since: -Infinity };
  }

  /** Takes a row of this module while it is watched. */
  take(row: LogRow): void {
    this.settle(row.time);
    switch (row.what) {
      case 'stop':
        this.stopped(row);
        break;
      case 'cleared':
        this.cleared(row);
        break;
      case 'batch':
        this.batch(row);
        break;
      case 'spill':
        if (this.isHere(row)) this.spills.push({ at: row.time, balls: row.count ?? 0 });
        break;
      case 'pulled':
        this.pulled(row);
        break;
      case 'back':
        this.back(row);
        break;
      default:
    }
    if (row.fate === 'left out') return;
    row.fate = 'used';
    this.rows++;
  }

  /** A clearing in a break: counts if the stop began before the break. */
  clearedInBreak(row: LogRow): boolean {
    if (this.left === undefined) return false;
    row.fate = 'used';
    const { row: stop } = this.left;
    this.left = undefined;
    this.tellLeft(stop, 'was cleared in a break');
    return true;
  }

  /** Watching is interrupted, or ends. */
  close(time: number, kind: 'break' | 'end'): void {
    this.settle(time);
    const { open } = this;
    if (open === undefined) return;
    open.stop.cleared = null;
    this.open = undefined;
    this.left = { row: open.row, since: time, overnight: kind === 'end' };
  }

  /** Watching goes on after a break, or begins anew. */
  reopen(time: number): void {
    if (this.left !== undefined) this.left.since = time;
  }

  /** The record, when there is no more. */
  finish(watched: readonly Stretch[]): ModuleRecord {
    this.endLeft(Infinity);
    if (this.out !== undefined) this.off.push({ from: this.out.since, to: Infinity });
    this.tellLargeBatches();
    const { module, builder, design, where } = this.start;
    return {
      module,
      ...(builder !== undefined && { builder }),
      ...(design !== undefined && { design }),
      where,
      watched: without(watched, this.off),
      batches: this.batches,
      stops: this.stops,
      spills: this.spills,
    };
  }

  private stopped(row: LogRow): void {
    if (!this.isHere(row)) return;
    if (this.open !== undefined)
      return this.problems.refuse(row, {
        code: 'overlap',
        rule: `it is stopped already, since line ${this.open.row.line}`,
        hint: 'If it ran in between, write down when it was cleared.',
      });
    this.endLeft(row.time);
    const { time, cause, count, level, lasted } = row;
    const stop: Writable<StopSeen> = {
      cause: cause === '' ? 'stop' : cause,
      from: time,
      cleared: lasted === undefined ? null : time + lasted,
      ...(level !== undefined && { level }),
      ...(count !== undefined && { dropped: count }),
    };
    this.stops.push(stop);
    this.open = { stop, row, ...(lasted !== undefined && { until: time + lasted }) };
  }

  private cleared(row: LogRow): void {
    if (this.open?.until !== undefined)
      return this.problems.refuse(row, {
        code: 'without_beginning',
        rule: `the stop of line ${this.open.row.line} says itself how long it lasted`,
      });
    if (this.open !== undefined) {
      this.open.stop.cleared = row.time;
      this.open = undefined;
    } else if (this.left !== undefined) {
      // It was not cleared overnight.
      this.left.overnight = false;
      this.endLeft(row.time);
    } else {
      this.problems.refuse(row, {
        code: 'without_beginning',
        rule: 'it is cleared, but no stop was written down',
      });
    }
  }

  private batch(row: LogRow): void {
    if (!this.isHere(row)) return;
    const { time, count = 0, level } = row;
    if (this.batches.at(-1)?.at === time)
      return this.problems.refuse(row, {
        code: 'duplicate',
        rule: 'a batch of this moment is written down already',
        hint: 'If it was another, write fractions of a second.',
      });
    if (this.open?.until !== undefined && time > this.open.stop.from)
      return this.problems.refuse(row, {
        code: 'overlap',
        rule: `a batch comes out while the stop of line ${this.open.row.line} lasts`,
      });
    // On the same second it came out and then stopped.
    if (this.open !== undefined && time > this.open.stop.from) {
      this.problems.look(row, {
        code: 'never_ended',
        rule: `a batch comes out, but the stop of line ${this.open.row.line} was not cleared; taken as cleared now`,
      });
      this.open.stop.cleared = time;
      this.open = undefined;
    }
    this.endLeft(time);
    this.batches.push({ at: time, balls: count, ...(level !== undefined && { level }) });
    this.batchRows.push(row);
  }

  private pulled(row: LogRow): void {
    if (this.out !== undefined)
      return this.problems.refuse(row, {
        code: 'off_the_loop',
        rule: `it is off the loop already${this.sinceOut()}`,
      });
    if (this.open !== undefined) this.open.stop.cleared = null;
    this.open = undefined;
    this.endLeft(row.time);
    this.out = { row, since: row.time };
  }

  private back(row: LogRow): void {
    if (this.out !== undefined) {
      this.off.push({ from: this.out.since, to: row.time });
      this.out = undefined;
    } else if (this.rows === 0 && this.start.where === 'show') {
      this.off.push({ from: -Infinity, to: row.time });
      this.problems.look(row, {
        code: 'without_beginning',
        rule: 'it is put in, and nothing before says that it was pulled; taken as off the loop until now',
      });
    } else {
      this.problems.refuse(row, { code: 'without_beginning', rule: 'it is put back, but it was not pulled' });
    }
  }

  /** Whether it is in the loop; the row is left out when not. */
  private isHere(row: LogRow): boolean {
    if (this.out === undefined) return true;
    this.problems.refuse(row, {
      code: 'off_the_loop',
      rule: `it is off the loop${this.sinceOut()}`,
      hint: 'Write a row "back" when it goes in.',
    });
    return false;
  }

  private sinceOut(): string {
    return this.out?.row === undefined ? ': it is a spare' : `, since line ${this.out.row.line}`;
  }

  /** A stop whose row said how long it lasts is over. */
  private settle(time: number): void {
    if (this.open?.until !== undefined && this.open.until <= time) this.open = undefined;
  }

  /** A stop that lasted on over a break is over: how long it was is not known, the time since then counts for nothing. */
  private endLeft(time: number): void {
    if (this.left === undefined) return;
    const { row, since, overnight } = this.left;
    this.left = undefined;
    if (overnight) return this.tellLeft(row, 'was not cleared before watching ended');
    this.off.push({ from: since, to: time });
    this.tellLeft(
      row,
      time === Infinity ? 'was not cleared after the break' : 'went on while nobody watched',
    );
  }

  private tellLeft(row: LogRow, what: string): void {
    this.problems.look(row, {
      code: 'never_ended',
      rule: `this stop ${what}; it counts as far as it was seen`,
    });
  }

  private tellLargeBatches(): void {
    const balls = Float64Array.from(this.batches, (batch) => batch.balls).sort();
    const median = balls[balls.length >> 1] ?? 0;
    const usual = Math.max(2, median);
    if ((balls.at(-1) ?? 0) <= FAR_ABOVE * usual) return;
    for (const [i, batch] of this.batches.entries()) {
      const row = this.batchRows[i];
      if (batch.balls > FAR_ABOVE * usual && row !== undefined)
        this.problems.look(row, {
          code: 'impossible',
          rule: `${batch.balls} balls are far more than the ${median} of the usual batch here`,
        });
    }
  }
}
