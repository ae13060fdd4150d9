import { type Fit, fitOf, type Lifetimes, lifetimesOf } from './lifetimes.js';

/** An exponential distribution fitted to lifetimes. */
export interface ExponentialFit extends Fit {
  /** In the unit of the times. */
  readonly mean: number;
}

/**
 * Maximum likelihood for the exponential distribution, with right censoring: all time watched over the number of failures
 * (Epstein & Sobel 1953, JASA 48, 486-502, from memory).
 *
 * @throws ParameterError when there are too few failures or a time is not positive
 * @example
 * exponentialFit({ failures: [2, 4], censored: [6] }).mean // => 6
 */
export function exponentialFit(lifetimes: Lifetimes): ExponentialFit {
  const watched = lifetimesOf(lifetimes, 'exponentialFit').reduce((sum, time) => sum + time, 0);
  const failed = lifetimes.failures.length;
  const mean = watched / failed;
  return { mean, ...fitOf(-failed * (Math.log(mean) + 1), 1) };
}
