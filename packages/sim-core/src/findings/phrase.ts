import type { Estimate } from '../statistics/index.js';
import { formatNumber, formatSeconds, formatShare } from '../units/index.js';

/** How a figure of some kind is written. */
export type Format = (value: number) => string;

/** The ways in which results are written in words. */
export const FORMATS: {
  readonly bps: Format;
  readonly seconds: Format;
  readonly share: Format;
  readonly perHour: Format;
  readonly balls: Format;
} = {
  bps: (value) => `${formatNumber(value)} bps`,
  seconds: formatSeconds,
  share: formatShare,
  perHour: (value) => `${formatNumber(value)} per hour`,
  balls: (value) => `${formatNumber(value)} balls`,
};

/**
 * The interval of an estimate: `0.98 bps to 1.01 bps`, or words when there is none.
 *
 * @example
 * intervalPhrase({ mean: 60, low: 50, high: 70, confidence: 0.95, replications: 10 }, formatSeconds) // => '50 s to 1 min 10 s'
 */
export function intervalPhrase(estimate: Estimate, format: Format): string {
  const { low, high } = estimate;
  if (low === null || high === null) return 'no interval: too few replications';
  return `${format(low)} to ${format(high)}`;
}

/**
 * An estimate with its interval: `1 min (95 % sure: 50 s to 1 min 10 s)`.
 *
 * @example
 * estimatePhrase({ mean: 60, low: 50, high: 70, confidence: 0.95, replications: 10 }, formatSeconds) // => '1 min (95 % sure: 50 s to 1 min 10 s)'
 */
export function estimatePhrase(estimate: Estimate, format: Format): string {
  const { mean, low, confidence } = estimate;
  if (mean === null) return 'not seen';
  if (low === null) return `${format(mean)} (one replication, no interval)`;
  return `${format(mean)} (${formatShare(confidence)} sure: ${intervalPhrase(estimate, format)})`;
}
