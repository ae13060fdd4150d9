import { simulate } from '../model/index.js';
import { CYCLE_END } from '../model/eventClass.js';
import type { ModuleSpec } from '../model/spec/index.js';
import { type BenchOptions, benchSpec } from './benchSpec.js';
import { personLog, type PersonRow } from './personLog.js';

/** How the log of a bench is made. */
export interface BenchLogOptions extends BenchOptions {
  /** Whole number from 0 to 2^53 - 1. */
  readonly seed: number;
  /** Number of the replication, from 0. @default 0 */
  readonly replication?: number;
  /** Whether every batch is written down, as by a counter. @default true */
  readonly batches?: boolean;
}

/**
 * The log that somebody with a stopwatch and a ball counter would keep of a module alone on the bench, written by the
 * simulator: for teaching and for testing. Times are seconds since the start, to the millisecond.
 *
 * @throws ParameterError as `benchSpec` and `simulate` do
 * @example
 * benchLog(exampleLoop.modules[0], { seconds: 60, seed: 1 }).split('\r\n').slice(0, 4) // => ['# log: bench', '# module: quick', '# basket: 150', '# times: elapsed']
 */
export function benchLog(module: ModuleSpec, options: BenchLogOptions): string {
  const { seed, replication = 0, batches = true, seconds } = options;
  const spec = benchSpec(module, options);
  const { capacity } = module.basket;
  const rows: PersonRow[] = [{ time: 0, what: 'start' }];
  const stopped: number[] = [];
  let held = 0;
  let cycling = false;
  simulate(spec, {
    seed,
    replication,
    log: ({ time, kind, cause, balls }) => {
      const row = { time: milliseconds(time) };
      if (kind === 'stops') {
        stopped.push(rows.length);
        rows.push({
          ...row,
          what: 'stop',
          ...(cause !== undefined && { cause }),
          ...(balls !== undefined && { count: balls }),
        });
      } else if (kind === 'cleared' || kind === 'freed_itself') rows.push({ ...row, what: 'cleared' });
      else if (kind === 'spills')
        rows.push({ ...row, what: 'spill', ...(balls !== undefined && { count: balls }) });
    },
    observe: (view) => {
      const level = capacity === Infinity ? {} : { level: view.level(0) };
      for (const i of stopped) rows[i] = { ...rows[i], ...level } as PersonRow;
      stopped.length = 0;
      // The first of these events is the pick with which the mechanism begins; nothing is let go yet.
      if (view.eventClass === CYCLE_END && view.module === 0) {
        if (cycling && batches)
          rows.push({ time: milliseconds(view.now), what: 'batch', count: held, ...level });
        cycling = true;
      }
      held = view.held(0);
    },
  });
  rows.push({ time: milliseconds(seconds), what: 'end' });
  return personLog(
    {
      log: 'bench',
      module: module.id,
      builder: module.builder,
      design: module.design,
      basket: capacity === Infinity ? undefined : capacity,
      times: 'elapsed',
    },
    rows,
  );
}

function milliseconds(seconds: number): number {
  return Math.round(seconds * 1000) / 1000;
}
