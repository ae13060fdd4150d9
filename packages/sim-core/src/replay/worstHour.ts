import type { ShowSpec } from '../model/spec/index.js';
import type { FigureName } from './figure.js';
import type { LogEntry } from './logEntry.js';
import { type StopSpan, stopSpans } from './stopSpans.js';
import { clockHours, isWithin, type TimeWindow } from './timeWindow.js';

/** What is added up in an hour, worst first: the figure the show was chosen for, and what parts equals. */
interface HourFigures {
  readonly hour: TimeWindow;
  readonly spilled: number;
  readonly lost: number;
  readonly stops: number;
  /** Most seconds of one stop that lie in the hour, and of all. */
  readonly longest: number;
  readonly stopped: number;
}

/**
 * The full hour by the clock, after the warm-up, in which most balls spilled; of a show that was chosen for its stops or
 * losses, the hour with most of these. Among equals the one with more time stopped, all modules added up, then the first.
 *
 * @returns undefined when the show has no full hour
 * @example
 * worstHour([{ time: 4000, kind: 'spills', module: 0, balls: 1 }], { seconds: 7200, warmUpSeconds: 0 }) // => { from: 3600, to: 7200 }
 */
export function worstHour(
  log: readonly LogEntry[],
  show: ShowSpec,
  figure: FigureName = 'spills',
): TimeWindow | undefined {
  const spans = stopSpans(log, show.seconds);
  const first = FIRST[figure];
  const hours = clockHours(show)
    .filter(({ from }) => from >= show.warmUpSeconds)
    .map((hour) => hourFigures(hour, log, spans, show));
  return hours.toSorted((a, b) => b[first] - a[first] || b.spilled - a.spilled || b.stopped - a.stopped)[0]
    ?.hour;
}

const FIRST: Readonly<Record<FigureName, 'spilled' | 'lost' | 'stops' | 'longest'>> = {
  spills: 'spilled',
  stops: 'stops',
  lost: 'lost',
  'longest-stop': 'longest',
  laps: 'spilled',
  moving: 'spilled',
};

function hourFigures(
  hour: TimeWindow,
  log: readonly LogEntry[],
  spans: readonly StopSpan[],
  show: ShowSpec,
): HourFigures {
  const inside = log.filter(({ time }) => isWithin(hour, time, show));
  const balls = (wanted: LogEntry['kind']): number =>
    inside.reduce((sum, { kind, balls: some = 0 }) => sum + (kind === wanted ? some : 0), 0);
  const seconds = spans.map(({ from, to }) => Math.max(0, Math.min(to, hour.to) - Math.max(from, hour.from)));
  return {
    hour,
    spilled: balls('spills'),
    lost: balls('lost'),
    stops: inside.filter(({ kind }) => kind === 'stops').length,
    longest: seconds.reduce((most, one) => Math.max(most, one), 0),
    stopped: seconds.reduce((sum, one) => sum + one, 0),
  };
}
