import type { ShowSpec } from '../model/spec/index.js';
import type { LogEntry } from './logEntry.js';
import { type StopSpan, stopSpans } from './stopSpans.js';
import { isWithin, type TimeWindow } from './timeWindow.js';

/** What one place lost in a window. */
export interface PlaceSpills {
  /** Index of the place in the loop. */
  readonly module: number;
  readonly balls: number;
  /** Public seconds at which the first fell. */
  readonly first: number;
}

/** How long one place was stopped in a window. */
export interface PlaceStopped {
  /** Index of the place in the loop. */
  readonly module: number;
  readonly seconds: number;
}

/** What happened in a window, in figures. Balls, unless the name says otherwise. */
export interface WindowTotals {
  /** Stops that began. */
  readonly stops: number;
  readonly spilled: number;
  readonly leaked: number;
  /** Fell out of mechanisms that stopped. */
  readonly dropped: number;
  readonly lost: number;
  readonly pulls: number;
  /** Public seconds at which the loop locked, in the window or before it. */
  readonly lockedAt?: number;
  /** The longest of the stops that lasted in the window, at its full length. */
  readonly longestStop?: StopSpan;
  /** Places that were stopped, longest first; only what lies in the window counts. */
  readonly stopped: readonly PlaceStopped[];
  /** Where balls spilled, most first. */
  readonly spills: readonly PlaceSpills[];
}

/**
 * Adds up what happened in a window.
 *
 * @example
 * windowTotals([{ time: 5, kind: 'spills', module: 0, balls: 3 }], { from: 0, to: 60 }, { seconds: 60, warmUpSeconds: 0 }).spilled // => 3
 */
export function windowTotals(log: readonly LogEntry[], window: TimeWindow, show: ShowSpec): WindowTotals {
  const inside = log.filter(({ time }) => isWithin(window, time, show));
  const balls = (kind: LogEntry['kind']): number =>
    inside.reduce((sum, entry) => sum + (entry.kind === kind ? (entry.balls ?? 0) : 0), 0);
  const lasting = stopSpans(log, show.seconds).filter(
    ({ from, to }) => isWithin(window, from, show) || (from < window.from && to > window.from),
  );
  const locked = log.find(({ kind, time }) => kind === 'locked' && time <= window.to);
  const [longestStop] = lasting.toSorted((a, b) => b.to - b.from - (a.to - a.from));
  return {
    stops: inside.filter(({ kind }) => kind === 'stops').length,
    spilled: balls('spills'),
    leaked: balls('leaks'),
    dropped: balls('stops'),
    lost: balls('lost'),
    pulls: inside.filter(({ kind }) => kind === 'pulled').length,
    ...(locked && { lockedAt: locked.time }),
    ...(longestStop && { longestStop }),
    stopped: stoppedByPlace(lasting, window),
    spills: spillsByPlace(inside),
  };
}

function stoppedByPlace(spans: readonly StopSpan[], window: TimeWindow): PlaceStopped[] {
  const places = new Map<number, number>();
  for (const { module, from, to } of spans) {
    const seconds = Math.min(to, window.to) - Math.max(from, window.from);
    places.set(module, (places.get(module) ?? 0) + seconds);
  }
  return [...places]
    .map(([module, seconds]) => ({ module, seconds }))
    .toSorted((a, b) => b.seconds - a.seconds || a.module - b.module);
}

function spillsByPlace(log: readonly LogEntry[]): PlaceSpills[] {
  const places = new Map<number, PlaceSpills>();
  for (const { kind, module, balls = 0, time } of log) {
    if (kind !== 'spills') continue;
    const { balls: before = 0, first = time } = places.get(module) ?? {};
    places.set(module, { module, balls: before + balls, first });
  }
  return [...places.values()].toSorted((a, b) => b.balls - a.balls || a.first - b.first);
}
