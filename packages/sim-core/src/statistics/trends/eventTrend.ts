import { requireParameter } from '../../errors/index.js';
import { chiSquareCdf, normalCdf } from '../../numerics/index.js';

/** Events in one time of watching, which begins at 0. */
export interface WatchedEvents {
  /** When they happened: above 0, at most `until`. */
  readonly times: readonly number[];
  /** The end of watching, fixed beforehand and not by an event. */
  readonly until: number;
}

/** Do events come more and more often? */
export interface EventTrend {
  readonly events: number;
  /** Laplace's statistic, about standard normal without a trend: above 0 they come more often towards the end. */
  readonly laplace: number;
  /** Two-sided chance of such a Laplace statistic without a trend. */
  readonly laplacePValue: number;
  /** Power law: the expected number of events by the time t grows with t to this power; 1 is no trend, above 1 worse. */
  readonly power: number;
  /** 2 sum ln(until / time), chi-square with 2 n degrees of freedom without a trend. */
  readonly statistic: number;
  /** Two-sided chance of such a statistic without a trend. */
  readonly pValue: number;
}

/**
 * Tests for a trend in events that are otherwise by chance (a Poisson process), over one or several times of watching.
 *
 * Laplace: U = sum(t - T / 2) / sqrt(sum(n T^2 / 12)) (Cox & Lewis 1966, from memory). Power law: 2 sum ln(T / t) against
 * chi-square with 2 n degrees (Crow 1974; MIL-HDBK-189C; NIST/SEMATECH e-Handbook 8.2.3.4), with the unbiased power
 * (n - 1) / sum ln(T / t).
 *
 * @returns null with fewer than two events: nothing can be said
 * @throws ParameterError when a time is not above 0 and at most `until`
 * @example
 * const { power } = eventTrend([{ times: [5, 40, 43, 175, 389, 712, 747, 795, 1299, 1478], until: 1500 }]);
 * power.toFixed(4) // => '0.4835'
 */
export function eventTrend(watched: readonly WatchedEvents[]): EventTrend | null {
  let events = 0;
  let excess = 0;
  let variance = 0;
  let logs = 0;
  for (const { times, until } of watched) {
    for (const time of times) {
      requireParameter(time > 0 && time <= until, 'eventTrend', 'time', time, `above 0 and at most ${until}`);
      excess += time - until / 2;
      logs += Math.log(until / time);
    }
    events += times.length;
    variance += (times.length * until * until) / 12;
  }
  if (events < 2) return null;
  const laplace = excess / Math.sqrt(variance);
  const below = chiSquareCdf(2 * logs, 2 * events);
  return {
    events,
    laplace,
    laplacePValue: 2 * normalCdf(-Math.abs(laplace)),
    power: (events - 1) / logs,
    statistic: 2 * logs,
    pValue: Math.min(1, 2 * Math.min(below, 1 - below)),
  };
}
