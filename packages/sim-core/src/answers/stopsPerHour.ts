import { intervalPhrase, KINDS, meanPhrase } from '../findings/index.js';
import type { Estimate } from '../statistics/index.js';
import type { LimitValue } from '../studies/index.js';
import { formatNumber, formatShare } from '../units/index.js';

/** Stops an hour as they are measured, to the same digits in sentence, table and picture. */
export function rateWords(perHour: number): string {
  return formatNumber(perHour, { digits: 2 });
}

/**
 * The most stops an hour, without its unit, to the digits that the sentence gives them.
 *
 * @example
 * [mostStops({ mean: 0.0662, low: 0.02, high: 0.1 }, 0.95), mostStops({ mean: 2.11, low: 1.8, high: null }, 0.95)] // => ['0.066', '2.1']
 */
export function mostStops(value: LimitValue & { readonly mean: number }, confidence: number): string {
  return value.high === null ? rateWords(value.mean) : meanPhrase(estimateOf(value, confidence), KINDS.plain);
}

/** "up to 2.1 stops per hour (95 % interval: 1.8 to 2.5 stops per hour)", as far as it is known. */
export function mostStopsPhrase(value: LimitValue, confidence: number): string {
  const { mean, low, high } = value;
  if (mean === null) return `${rateWords(low)} stops per hour and perhaps more`;
  const most = `up to ${mostStops({ mean, low, high }, confidence)} stops per hour`;
  return high === null
    ? `${most} (${rateWords(low)} for sure; how many are too many was not found)`
    : `${most} (${formatShare(confidence)} interval: ${intervalPhrase(estimateOf(value, confidence), KINDS.stopsPerHour)})`;
}

function estimateOf(value: LimitValue, confidence: number): Estimate {
  return { ...value, confidence, replications: 2 };
}
