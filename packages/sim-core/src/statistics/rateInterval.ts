import type { Estimate } from './estimate.js';
import { meanInterval } from './meanInterval.js';
import type { Moments } from './moments.js';

/**
 * A rate of chance events in each hour, over replications: Student's t interval, cut off at zero. When no replication
 * saw a single event the spread says nothing; then the upper limit is the exact one for independent events,
 * -ln((1 - confidence) / 2) / hours in all (Garwood 1936, Biometrika 28, 437-442, from memory).
 *
 * @param rates events per hour, one value for each replication
 * @param hours hours in each replication
 * @throws ParameterError when the confidence is out of range
 * @example
 * const rates = new Moments();
 * for (let i = 0; i < 10; i++) rates.add(0);
 * rateInterval(rates, 6, 0.95).high.toFixed(4) // => '0.0615'
 */
export function rateInterval(rates: Moments, hours: number, confidence: number): Estimate {
  const estimate = meanInterval(rates, confidence, { min: 0 });
  if (rates.count < 2 || rates.mean > 0 || rates.variance > 0) return estimate;
  return { ...estimate, high: -Math.log((1 - confidence) / 2) / (hours * rates.count) };
}
