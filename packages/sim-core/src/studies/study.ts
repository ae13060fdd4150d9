import { InputError, type Problem, SimulationError } from '../errors/index.js';
import { rowFits, type ShowSource, StudyPool, type StudyTask, valueIndex } from '../experiments/index.js';
import { journalLine } from './journal.js';
import type { System } from './system.js';
import { ValueTable } from './valueTable.js';

/** How a study is to be run. */
export interface StudyOptions {
  /** Whole number from 0 to 2^53 - 1. */
  readonly seed: number;
  /** Worker threads. @default 1 */
  readonly workers?: number;
  /** Shows that are known already, from a journal. */
  readonly table?: ValueTable;
  /** Called with each line of the journal as a show is finished. */
  readonly onLine?: (line: string) => void;
  readonly onProgress?: (progress: { readonly done: number; readonly asked: number }) => void;
  readonly signal?: AbortSignal;
  /** Only every `of`-th of the shows that are asked for is simulated, from the `number`-th on. */
  readonly shard?: { readonly number: number; readonly of: number };
  /** Where shows come from. @default a pool of worker threads */
  readonly source?: ShowSource;
}

/**
 * A part of a study has simulated its share; what the others simulate must be known before it can go on.
 *
 * @example
 * new ShardDone('shows of other parts are missing').name // => 'ShardDone'
 */
export class ShardDone extends Error {
  override readonly name = 'ShardDone';
}

/**
 * The study was broken off; what it has simulated is in the journal.
 *
 * @example
 * new StudyStopped('stopped').name // => 'StudyStopped'
 */
export class StudyStopped extends Error {
  override readonly name = 'StudyStopped';
}

/** One show of one system. */
export interface ShowOf {
  readonly system: System;
  readonly replication: number;
}

/** Lines of a journal told at once. */
const MOST_PROBLEMS = 100;

function showsOf(systems: readonly System[], count: number, from: number): ShowOf[] {
  return Array.from({ length: count }, (_, i) =>
    systems.map((system) => ({ system, replication: from + i })),
  ).flat();
}

/**
 * The shows of a question, simulated as they are asked for, each once. All systems meet the same luck: show number r of
 * one has the same random numbers as show r of another (common random numbers).
 *
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const loop = system('as it is', exampleLoop);
 * await study.simulate([loop], 3);
 * study.column(loop, 'throughput_bps', 3).length // => 3
 */
export class Study {
  readonly seed: number;
  readonly table: ValueTable;
  private readonly options: StudyOptions;
  private readonly source: ShowSource;
  private readonly used = new Map<string, number>();
  /** Systems of which the rows that were read are known to be of the right length. */
  private readonly fitting = new Set<string>();
  private asked = 0;
  private done = 0;

  constructor(options: StudyOptions) {
    this.options = options;
    this.seed = options.seed;
    this.table = options.table ?? new ValueTable();
    this.source = options.source ?? new StudyPool(options.workers ?? 1);
  }

  /** How many shows the question has asked for so far, whether they were known already or not. */
  get shows(): number {
    return [...this.used.values()].reduce((sum, shows) => sum + shows, 0);
  }

  /** Says which shows the question will probably still ask for, for the time left. */
  expect(systems: readonly System[], count: number, from = 0): void {
    let unknown = 0;
    // There may be very many: none of them is made.
    for (const { key } of systems)
      for (let replication = from; replication < from + count; replication++)
        if (!this.table.has(key, replication)) unknown++;
    this.tellAsked(unknown);
  }

  /** The same for any shows of any systems. */
  expectShows(shows: readonly ShowOf[]): void {
    this.tellAsked(
      shows.filter(({ system, replication }) => !this.table.has(system.key, replication)).length,
    );
  }

  private tellAsked(unknown: number): void {
    const { shard, onProgress } = this.options;
    this.asked = this.done + Math.ceil(unknown / (shard?.of ?? 1));
    onProgress?.({ done: this.done, asked: this.asked });
  }

  /**
   * Sees to it that replications `from` to `from + count - 1` of all these systems are known.
   *
   * @throws StudyStopped when the signal says so
   * @throws ShardDone when this is one part of a study and shows of other parts are missing
   * @throws SimulationError when a show cannot be simulated
   * @throws InputError when lines of a journal cannot be shows of these systems
   */
  simulate(systems: readonly System[], count: number, from = 0): Promise<void> {
    return this.simulateShows(showsOf(systems, count, from));
  }

  /**
   * The same for any shows of any systems.
   *
   * @throws StudyStopped when the signal says so
   * @throws ShardDone when this is one part of a study and shows of other parts are missing
   * @throws SimulationError when a show cannot be simulated
   * @throws InputError when lines of a journal cannot be shows of these systems
   */
  async simulateShows(shows: readonly ShowOf[]): Promise<void> {
    const { shard, signal } = this.options;
    this.checkRead(shows);
    const missing: ShowOf[] = [];
    const asked = new Set<string>();
    let ofOthers = 0;
    for (const show of shows) {
      const name = `${show.system.key} ${show.replication}`;
      if (asked.has(name)) continue;
      const mine = !shard || asked.size % shard.of === shard.number;
      asked.add(name);
      // The reading of a stop takes two: one with it and one without.
      this.used.set(name, show.system.reading?.kind === 'stop' ? 2 : 1);
      if (this.table.has(show.system.key, show.replication)) continue;
      if (mine) missing.push(show);
      else ofOthers++;
    }
    let next = 0;
    let failure: Error | undefined;
    const stop = (): void => {
      failure ??= new StudyStopped('stopped');
      void this.source.close();
    };
    signal?.addEventListener('abort', stop, { once: true });
    if (signal?.aborted) stop();
    const keepBusy = async (): Promise<void> => {
      while (next < missing.length && failure === undefined) {
        const task = missing[next++];
        if (task === undefined) return;
        const { system, replication } = task;
        let values: readonly number[];
        try {
          values = await this.source.run(taskOf(system, this.seed, replication));
        } catch (error) {
          failure ??= new SimulationError(`${system.label}: ${messageOf(error)}`, { replication });
          return;
        }
        try {
          this.take(system, replication, values);
        } catch (error) {
          // The show is in order, but it could not be kept, or told of.
          failure ??= error instanceof Error ? error : new Error(messageOf(error));
        }
      }
    };
    // One more for each waits, so that a thread need not wait until what it gave has been noted.
    await Promise.all(Array.from({ length: 2 * this.source.size }, keepBusy));
    signal?.removeEventListener('abort', stop);
    if (failure) throw failure;
    if (ofOthers > 0) throw new ShardDone('shows of other parts are missing');
  }

  /** Tells of all lines at once that are not shows of these systems, whatever question they come from. */
  private checkRead(shows: readonly ShowOf[]): void {
    const problems: Problem[] = [];
    for (const { system } of shows) {
      const { key, spec, reading } = system;
      if (this.fitting.has(key)) continue;
      this.fitting.add(key);
      for (const replication of this.table.replications(key)) {
        const origin = this.table.origin(key, replication);
        const values = this.table.row(key, replication);
        if (origin === undefined || rowFits(spec, reading, values)) continue;
        problems.push({
          code: 'contradiction',
          path: '',
          ...origin,
          column: 1,
          rule: `${values.length} values are not what is kept of a show of "${system.label}"`,
          hint: 'Take the line out; its show is simulated again.',
        });
      }
    }
    if (problems.length > 0)
      throw new InputError(
        problems.toSorted((a, b) => (a.line ?? 0) - (b.line ?? 0)).slice(0, MOST_PROBLEMS),
      );
  }

  /**
   * Lets others have their turn in a long reckoning between shows, so that it can be stopped.
   *
   * @throws StudyStopped when the signal says so
   */
  async breathe(): Promise<void> {
    await new Promise((resolve) => setImmediate(resolve));
    if (this.options.signal?.aborted) throw new StudyStopped('stopped');
  }

  private take({ key }: System, replication: number, values: readonly number[]): void {
    this.table.add(key, replication, values);
    this.options.onLine?.(journalLine(key, replication, values));
    this.done++;
    this.asked = Math.max(this.asked, this.done);
    this.options.onProgress?.({ done: this.done, asked: this.asked });
  }

  /**
   * The values of one measure over replications of a system, or of what is measured of the module that it watches.
   *
   * @param measure as in MEASURES; of a watched module `watched_stops` or `watched_hours`
   */
  column({ key }: System, measure: string, count: number, from = 0): number[] {
    return this.table.column(key, valueIndex(measure), count, from);
  }

  /** All values of one show of a system, as its reading gives them. */
  row({ key }: System, replication: number): readonly number[] {
    return this.table.row(key, replication);
  }

  /** Ends the worker threads. */
  close(): Promise<void> {
    return this.source.close();
  }
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

function taskOf({ spec, reading, doubt }: System, seed: number, replication: number): StudyTask {
  return {
    spec,
    seed,
    replication,
    ...(reading !== undefined && { reading }),
    ...(doubt !== undefined && { doubt }),
  };
}
