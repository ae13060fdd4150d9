import type { Estimate } from './estimate.js';
import { Moments } from './moments.js';
import { clusteredProportion } from './proportion.js';
import { waitingQuantile } from './waitingQuantile.js';

/**
 * A quantile of waiting times that come in replications, when those of one replication may be alike; Infinity where a wait
 * did not end while it was watched.
 *
 * Limits by Woodruff's method (1952, JASA 47, 635-646, from memory): the interval for the share of waits that are no
 * longer than the quantile, at the effective number of waits ({@link clusteredProportion}), read off the sorted waits.
 *
 * @param shows the waits of each replication; those without any are left out
 * @param share which quantile; above 0 and below 1
 * @returns null under `mean` or a limit where it lies beyond what was watched, and where there is nothing to go by
 * @throws ParameterError when a number is out of range
 * @example
 * clusteredQuantile([[10, 20], [30, Infinity], [15, 25]], 0.5, 0.95).mean // => 20
 */
export function clusteredQuantile(
  shows: readonly (readonly number[])[],
  share: number,
  confidence: number,
): Estimate {
  const some = shows.filter((waits) => waits.length > 0);
  const sorted = Float64Array.from(some.flat()).sort();
  const n = sorted.length;
  const common = { confidence, replications: some.length };
  if (n === 0) return { mean: null, low: null, high: null, ...common };
  const { mean } = waitingQuantile(some.flat(), share, confidence);
  if (mean === null) return { mean, low: null, high: null, ...common };
  const shares = new Moments();
  for (const waits of some) shares.add(waits.filter((wait) => wait <= mean).length / waits.length);
  const { low, high } = clusteredProportion(shares, n / some.length, confidence);
  const at = (rank: number): number | null => {
    const wait = sorted[rank - 1];
    return wait === undefined || wait === Infinity ? null : wait;
  };
  return {
    mean,
    low: low === null ? null : at(Math.max(1, Math.floor(low * n))),
    high: high === null ? null : at(Math.floor(high * n) + 1),
    ...common,
  };
}
