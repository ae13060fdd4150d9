import type { Estimate } from './estimate.js';
import { quantileRanks } from './quantileInterval.js';
import { requireChance, requireCount } from './requireNumbers.js';

/**
 * A quantile of waiting times of which some did not end while they were watched: those are Infinity and count as later
 * than all others. The smallest time by which at least that share has ended, and limits that hold whatever the
 * distribution (two of the sorted times, see {@link quantileRanks}). Nothing is interpolated, so a time that did not end
 * never gets into a figure.
 *
 * @param times at least one, in any unit; Infinity where it did not end
 * @param share which quantile, such as 0.05; above 0 and below 1
 * @param confidence above 0 and below 1; the limits hold at least as often
 * @returns null under `mean` or `high` where it lies beyond what was watched; null under `low` where no time is far
 *   enough out to be a limit
 * @throws ParameterError when there are no times, or a number is out of range
 * @example
 * waitingQuantile([30, Infinity, 10, 20, Infinity], 0.5, 0.9).mean // => 30
 */
export function waitingQuantile(times: readonly number[], share: number, confidence: number): Estimate {
  requireCount(times.length, 1, 'waitingQuantile', 'times.length');
  requireChance(share, 'waitingQuantile', 'share');
  const { lower, upper } = quantileRanks(times.length, share, confidence);
  const sorted = Float64Array.from(times).sort();
  const at = (rank: number): number | null => {
    const time = sorted[rank - 1];
    return time === undefined || time === Infinity ? null : time;
  };
  // A share such as 0.95 of 20 is a whole number on paper, but not always in binary.
  const rank = Math.max(1, Math.ceil(times.length * share - 1e-9));
  return { mean: at(rank), low: at(lower), high: at(upper), confidence, replications: times.length };
}
