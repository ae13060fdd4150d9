import type { LogEntry } from './logEntry.js';

/** A stretch in which one place stood still: a stop of what stands there, or a swap. */
export interface StopSpan {
  /** Index of the place in the loop. */
  readonly module: number;
  /** Id of the cause; absent when it stood still for a swap only. */
  readonly cause?: string;
  /** Public seconds. */
  readonly from: number;
  readonly to: number;
  /** True when it was not over when the show ended. */
  readonly open: boolean;
}

/**
 * The stops in a log, in the order in which they began. A place that runs while a minder sets out to swap something stands
 * still for that.
 *
 * @param end of the show, public seconds: where stops that are still open are cut off
 * @example
 * stopSpans([{ time: 10, kind: 'stops', module: 0, cause: 'jam' }, { time: 40, kind: 'cleared', module: 0, seconds: 30 }], 100)
 * // => [{ module: 0, cause: 'jam', from: 10, to: 40, open: false }]
 */
export function stopSpans(log: readonly LogEntry[], end: number): StopSpan[] {
  const spans: StopSpan[] = [];
  /** Where in `spans` the open stop of a place stands. */
  const open = new Map<number, number>();
  for (const { kind, module, cause, time, what } of log) {
    const isSwap = kind === 'sets_out' && SWAPS.test(what ?? '') && !open.has(module);
    if (kind === 'stops' || isSwap) {
      open.set(module, spans.length);
      spans.push({ module, ...(cause !== undefined && { cause }), from: time, to: end, open: true });
    } else if (ENDS.has(kind)) {
      const index = open.get(module);
      const span = index === undefined ? undefined : spans[index];
      if (index === undefined || span === undefined) continue;
      spans[index] = { ...span, to: time, open: false };
      open.delete(module);
    }
  }
  return spans;
}

const SWAPS = /^(?:swap|put) it /;

/** What ends a stop: a clearing, or that something else stands in the place. */
const ENDS: ReadonlySet<LogEntry['kind']> = new Set(['cleared', 'freed_itself', 'pulled', 'put_back']);
