import type { ModuleRecord, StopSeen, Stretch } from '../logs/index.js';

/** When a module ran while it was watched: the watched stretches without its stops. */
export interface RunningTime {
  /** Watched and not stopped, in rising order. */
  readonly ran: readonly Stretch[];
  readonly runningSeconds: number;
  readonly watchedSeconds: number;
}

/**
 * The running time of a record. A stop that was never seen cleared lasts to the end of the stretch in which it began.
 *
 * @example
 * const record = { module: 'lift', where: 'bench', watched: [{ from: 0, to: 100 }], batches: [], spills: [],
 *   stops: [{ cause: 'jam', from: 40, cleared: 60 }] };
 * runningTime(record) // => { ran: [{ from: 0, to: 40 }, { from: 60, to: 100 }], runningSeconds: 80, watchedSeconds: 100 }
 */
export function runningTime(record: Pick<ModuleRecord, 'watched' | 'stops'>): RunningTime {
  const ran: Stretch[] = [];
  for (const { from, to } of record.watched) {
    let at = from;
    for (const stop of record.stops) {
      const end = stopEnd(record, stop);
      if (end <= at || stop.from >= to) continue;
      if (stop.from > at) ran.push({ from: at, to: stop.from });
      at = Math.max(at, end);
    }
    if (at < to) ran.push({ from: at, to });
  }
  return { ran, runningSeconds: lengthOf(ran), watchedSeconds: lengthOf(record.watched) };
}

/** When a stop ended: cleared, or no longer watched. */
export function stopEnd(record: Pick<ModuleRecord, 'watched'>, stop: StopSeen): number {
  return stop.cleared ?? record.watched.find(({ to }) => to >= stop.from)?.to ?? stop.from;
}

/**
 * Tells how many seconds it had run, watched, by a moment. Logs have a hundred thousand stretches: each is added once.
 *
 * @param ran stretches in rising order
 */
export function runningClock(ran: readonly Stretch[]): (at: number) => number {
  const before = new Float64Array(ran.length + 1);
  for (const [i, { from, to }] of ran.entries()) before[i + 1] = (before[i] ?? 0) + (to - from);
  return (at) => {
    const begun = countUntil(ran.length, (i) => (ran[i]?.from ?? Infinity) < at);
    const last = ran[begun - 1];
    return last === undefined ? 0 : (before[begun - 1] ?? 0) + (Math.min(last.to, at) - last.from);
  };
}

/** How many of things in order have what only the first of them have. */
export function countUntil(length: number, has: (index: number) => boolean): number {
  let low = 0;
  let high = length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (has(middle)) low = middle + 1;
    else high = middle;
  }
  return low;
}

function lengthOf(stretches: readonly Stretch[]): number {
  return stretches.reduce((sum, { from, to }) => sum + to - from, 0);
}
