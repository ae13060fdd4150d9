import type { Estimate } from '../statistics/index.js';
import { clockLabel, formatSeconds, formatShare, type ShowClock } from '../units/index.js';

/**
 * A kind of figure: what its numbers are multiplied with and what stands behind them; a time; or a moment of the show, in
 * public seconds, as the clock on the wall shows it.
 */
export type Kind =
  | 'time'
  | { readonly clock: ShowClock }
  | { readonly scale?: number; readonly unit: string; readonly one?: string };

/** The kinds of figures there are in results. */
export const KINDS = {
  time: 'time',
  bps: { unit: 'bps' },
  share: { scale: 100, unit: '%' },
  perHour: { unit: 'per hour' },
  ballsPerHour: { unit: 'balls per hour' },
  stopsPerHour: { unit: 'stops per hour' },
  perShow: { unit: 'per show' },
  ballsPerShow: { unit: 'balls per show' },
  timesPerShow: { unit: 'times a show', one: 'time a show' },
  balls: { unit: 'balls', one: 'ball' },
  plain: { unit: '' },
} satisfies Record<string, Kind>;

/**
 * The mean of an estimate with its unit, to the digits that its interval leaves standing.
 *
 * @example
 * meanPhrase({ mean: 81.87, low: 73.7, high: 90, confidence: 0.95, replications: 100 }, KINDS.ballsPerHour) // => '82 balls per hour'
 */
export function meanPhrase(estimate: Estimate, kind: Kind): string {
  if (estimate.mean === null) return 'not seen';
  return written(estimate.mean, kind, decimalsOf(estimate, kind));
}

/**
 * The interval of an estimate with its unit, or words when there is none.
 *
 * @example
 * intervalPhrase({ mean: 0.9331, low: 0.93, high: 0.936, confidence: 0.95, replications: 100 }, KINDS.bps) // => '0.930 to 0.936 bps'
 */
export function intervalPhrase(estimate: Estimate, kind: Kind): string {
  const { low, high, replications } = estimate;
  if (low === null) return replications === 1 ? 'one show, no interval' : 'no interval';
  if (high === null) return 'none seen';
  const decimals = decimalsOf(estimate, kind);
  const to = written(high, kind, decimals);
  if (kind === 'time' || 'clock' in kind) return `${written(low, kind, decimals)} to ${to}`;
  return `${((kind.scale ?? 1) * low).toFixed(decimals)} to ${to}`;
}

/**
 * An estimate with its interval.
 *
 * @example
 * estimatePhrase({ mean: 60, low: 50, high: 70, confidence: 0.95, replications: 10 }, KINDS.time) // => '1 min (95 % interval: 50 s to 1 min 10 s)'
 */
export function estimatePhrase(estimate: Estimate, kind: Kind): string {
  const mean = meanPhrase(estimate, kind);
  if (estimate.mean === null) return mean;
  const interval = intervalPhrase(estimate, kind);
  if (estimate.low === null || estimate.high === null) return `${mean} (${interval})`;
  return `${mean} (${formatShare(estimate.confidence)} interval: ${interval})`;
}

/**
 * An estimate with its interval as short as a column of a table wants it, whose head says which interval.
 *
 * @example
 * briefPhrase({ mean: 0.9331, low: 0.93, high: 0.936, confidence: 0.95, replications: 100 }, KINDS.bps) // => '0.933 (0.930 to 0.936) bps'
 */
export function briefPhrase(estimate: Estimate, kind: Kind): string {
  const { mean, low, high } = estimate;
  const alone = meanPhrase(estimate, kind);
  if (mean === null) return alone;
  if (low === null || high === null) return `${alone} (${intervalPhrase(estimate, kind)})`;
  const decimals = decimalsOf(estimate, kind);
  const [from, to] = [written(low, kind, decimals), written(high, kind, decimals)];
  // Narrower than can be written.
  if (from === alone && to === alone) return alone;
  if (kind === 'time' || 'clock' in kind) return `${alone} (${from} to ${to})`;
  const bare = (value: number): string => ((kind.scale ?? 1) * value).toFixed(decimals);
  return `${bare(mean)} (${bare(low)} to ${bare(high)}) ${kind.unit}`.trimEnd();
}

function written(value: number, kind: Kind, decimals: number): string {
  if (kind === 'time')
    return decimals === WHOLE_MINUTES
      ? formatSeconds(60 * Math.round(value / 60))
      : formatSeconds(value, { decimals });
  if ('clock' in kind) return clockLabel(kind.clock, value);
  const { scale = 1, unit, one = unit } = kind;
  const number = (scale * value).toFixed(decimals);
  return `${number} ${number === '1' ? one : unit}`.trimEnd();
}

/** Significant digits of the largest number, as long as they leave the interval a width. */
const MOST_DIGITS = 4;
/** Instead of decimals, for times of ten minutes and more that are known to no better than ten minutes. */
const WHOLE_MINUTES = -1;
const TEN_MINUTES = 600;

/**
 * Decimals worth writing: down to the first digit of half the interval, but two digits of the mean at least, unless they are
 * less than a hundredth of half the interval, and four digits in all, unless the ends would be the same; without an interval
 * three digits of the mean.
 */
function decimalsOf({ mean, low, high }: Estimate, kind: Kind): number {
  const scale = kind === 'time' || 'clock' in kind ? 1 : (kind.scale ?? 1);
  const first = (value: number): number =>
    value === 0 ? -Infinity : -Math.floor(Math.log10(Math.abs(scale * value)));
  const half = low === null || high === null ? 0 : (high - low) / 2;
  if (kind === 'time' && half >= TEN_MINUTES && mean !== null && mean >= TEN_MINUTES) return WHOLE_MINUTES;
  const two = mean === null ? 0 : first(mean) + 1;
  if (!(half > 0)) return printable(Math.max(first(mean ?? 0) + 2, two));
  const wanted = Math.max(first(half), Math.min(two, first(half) + 2));
  const most =
    MOST_DIGITS -
    1 +
    Math.min(...[mean, low, high].map((value) => first(value ?? 0)).filter(Number.isFinite));
  return printable(wanted > most && 2 * half * scale * 10 ** most >= 1 ? most : wanted);
}

/** Digits before the point are never taken away. */
function printable(decimals: number): number {
  return Math.min(6, Math.max(0, decimals));
}
