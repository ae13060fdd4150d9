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
 * The interval of an estimate: `0.98 to 1.01 bps`, or words when there is none.
 *
 * @example
 * intervalPhrase({ mean: 1, low: 0.98, high: 1.01, confidence: 0.95, replications: 10 }, FORMATS.bps) // => '0.98 to 1.01 bps'
 */
export function intervalPhrase(estimate: Estimate, format: Format): string {
  const { low, high } = estimate;
  if (low === null || high === null) return 'no interval: too few replications';
  const from = splitUnit(format(low));
  const to = splitUnit(format(high));
  // The unit once, when both ends have the same simple one; "50 s to 1 min 10 s" keeps both.
  return `${from.unit === to.unit ? from.number : `${from.number}${from.unit}`} to ${to.number}${to.unit}`;
}

function splitUnit(text: string): { readonly number: string; readonly unit: string } {
  const match = /^(-?[\d.]+)( [^\d]+)$/.exec(text);
  return match ? { number: match[1] ?? '', unit: match[2] ?? '' } : { number: text, unit: '' };
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
