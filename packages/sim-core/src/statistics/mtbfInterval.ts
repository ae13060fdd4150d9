import { requireParameter } from '../errors/index.js';
import { gammaQuantile } from '../numerics/index.js';
import { requireChance, requireCount } from './requireNumbers.js';

/** Mean time between failures with its limits, in the unit of the time watched. */
export interface MtbfEstimate {
  /** Null when nothing failed. */
  readonly mean: number | null;
  readonly low: number;
  /** Null when nothing failed: there is no upper limit. */
  readonly high: number | null;
  readonly confidence: number;
  readonly failures: number;
}

/**
 * Mean time between failures (stops, jams) from a count in a time fixed beforehand, when failures come at a constant rate.
 *
 * low = 2 T / chi2(1 - alpha/2; 2 r + 2), high = 2 T / chi2(alpha/2; 2 r); without failures the one-sided
 * low = 2 T / chi2(1 - alpha; 2) = T / -ln(alpha) (NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.5.1).
 *
 * @param time watched in all, above 0, in any unit; time spent stopped does not count
 * @param failures whole number from 0
 * @param confidence 1 - alpha, above 0 and below 1
 * @throws ParameterError when a number is out of range
 * @example
 * const { mean, low, high } = mtbfInterval(800, 2, 0.9);
 * [mean, Math.round(low), Math.round(high)] // => [400, 127, 2251]
 */
export function mtbfInterval(time: number, failures: number, confidence: number): MtbfEstimate {
  requireParameter(time > 0 && time < Infinity, 'mtbfInterval', 'time', time, 'a finite number above 0');
  requireCount(failures, 0, 'mtbfInterval', 'failures');
  requireChance(confidence, 'mtbfInterval', 'confidence');
  const common = { confidence, failures };
  // Half a chi-square variable with 2 r degrees is a gamma variable of shape r.
  if (failures === 0) return { mean: null, low: -time / Math.log1p(-confidence), high: null, ...common };
  const tail = (1 - confidence) / 2;
  return {
    mean: time / failures,
    low: time / gammaQuantile(1 - tail, failures + 1),
    high: time / gammaQuantile(tail, failures),
    ...common,
  };
}
