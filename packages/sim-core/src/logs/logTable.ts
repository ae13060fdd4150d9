import { ModuleBook } from './moduleBook.js';
import type { LogRow } from './logRow.js';
import type { LogWord } from './logWords.js';
import type { ModuleRecord, Stretch } from './moduleRecord.js';
import { nearestName, plainName } from './nearestName.js';
import type { ProblemList } from './problemList.js';
import type { KnownModule } from './knownModule.js';
import type { LapSeen, MindersSeen } from './showSeen.js';
import { type CounterReading, counterReadings } from './readings.js';
import { Watching, type WatchingStart } from './watching.js';

/** A table whose rows are read: one module on the bench, or the loop of a show. */
export interface TableStart extends WatchingStart {
  readonly where: 'bench' | 'show';
  /** The module on the bench, which has a record also when nothing happens to it. */
  readonly own?: string;
  /** Modules there may be; any when empty. */
  readonly known: readonly KnownModule[];
  /** What the heads of the files say of modules. */
  readonly heads: readonly KnownModule[];
}

/** Words that mean nothing on the bench. */
const OF_A_SHOW: ReadonlySet<LogWord> = new Set(['counter', 'reset', 'lap', 'shift']);

/** Reads the rows of one table in time order. */
export class LogTable {
  private readonly books = new Map<string, ModuleBook>();
  /** The same by names as they stand in the files, because there are many rows. */
  private readonly asWritten = new Map<string, ModuleBook>();
  private readonly watching: Watching;
  private readonly counterRows: LogRow[] = [];
  readonly laps: LapSeen[] = [];
  readonly shifts: MindersSeen[] = [];

  constructor(
    private readonly start: TableStart,
    private readonly problems: ProblemList,
  ) {
    this.watching = new Watching(start, this.books, problems);
    // Those of a loop that never stopped were watched too.
    if (start.where === 'show')
      for (const module of start.known) if (module.spare !== true) this.newBook(module);
    if (start.own !== undefined && start.own !== '') this.bookFor(start.own);
  }

  /** Takes the next row; `module` is the name it stands for, empty for none. */
  take(row: LogRow, module: string): void {
    if (row.what === 'note') {
      row.fate = 'used';
      return;
    }
    if (this.start.where === 'bench' && OF_A_SHOW.has(row.what))
      return this.problems.refuse(row, {
        code: 'not_understood',
        rule: `"${row.what}" is read only in the log of a show`,
        hint: row.what === 'counter' ? 'On the bench, write down batches.' : undefined,
      });
    this.watching.arrive(row);
    switch (row.what) {
      case 'start':
      case 'end':
      case 'break':
      case 'resume':
        return this.watching.take(row);
      case 'counter':
      case 'reset':
        return void this.counterRows.push(row);
      case 'shift':
        row.fate = 'used';
        return void this.shifts.push({ at: row.time, minders: row.count ?? 0 });
      case 'lap':
        if (!this.watching.covers(row)) return;
        row.fate = 'used';
        this.laps.push({
          at: row.time,
          seconds: row.lasted ?? 0,
          ...(row.cause !== '' && { ball: row.cause }),
        });
        return;
      default:
        return this.ofModule(row, module);
    }
  }

  /** What the rows came to, when there are no more. */
  finish(): {
    readonly records: readonly ModuleRecord[];
    readonly sessions: readonly Stretch[];
    readonly counter: readonly CounterReading[];
  } {
    this.watching.finish();
    const sessions = this.watching.spans;
    return {
      records: [...this.books.values()].map((book) => book.finish(sessions)),
      sessions,
      counter: counterReadings(this.counterRows, this.problems),
    };
  }

  private ofModule(row: LogRow, module: string): void {
    if (module === '')
      return this.problems.refuse(row, {
        code: 'missing',
        rule: 'which module it is about is missing',
        hint:
          this.start.where === 'bench'
            ? 'Write "# module: its-name" at the head of the file.'
            : 'Write its name under "module".',
      });
    const book = this.asWritten.get(module) ?? this.books.get(plainName(module)) ?? this.bookFor(module);
    if (book === undefined)
      return this.problems.refuse(row, {
        code: 'unknown_module',
        rule: `there is no module "${module.slice(0, 40)}"`,
        hint: nearestName(
          module,
          this.start.known.map(({ id }) => id),
        ),
      });
    this.asWritten.set(module, book);
    if (row.what === 'cleared' && this.watching.paused && book.clearedInBreak(row)) return;
    if (this.watching.covers(row)) book.take(row);
  }

  private bookFor(name: string): ModuleBook | undefined {
    const { known } = this.start;
    const module = known.find(({ id }) => plainName(id) === plainName(name));
    if (module !== undefined) return this.newBook(module);
    return known.length === 0 ? this.newBook({ id: name }) : undefined;
  }

  private newBook(module: KnownModule): ModuleBook {
    const { where, heads } = this.start;
    const head = heads.find(({ id }) => plainName(id) === plainName(module.id));
    const builder = head?.builder ?? module.builder;
    const design = head?.design ?? module.design;
    const book = new ModuleBook(
      {
        module: module.id,
        ...(builder !== undefined && { builder }),
        ...(design !== undefined && { design }),
        where,
        spare: where === 'show' && module.spare === true,
      },
      this.problems,
    );
    this.books.set(plainName(module.id), book);
    return book;
  }
}
