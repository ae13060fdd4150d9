import { mean, sum } from 'simple-statistics';
import { type Fit, fitOf, lifetimesOf } from './lifetimes.js';

/** A lognormal distribution fitted to values. */
export interface LognormalFit extends Fit {
  /** Mean of the logarithms. */
  readonly mu: number;
  /** Standard deviation of the logarithms, divisor n. */
  readonly sigma: number;
}

/**
 * Maximum likelihood for the lognormal distribution, every value seen to its end: mean and standard deviation (divisor n)
 * of the logarithms (Crow & Shimizu 1988, Lognormal Distributions, from memory).
 *
 * @throws ParameterError when there are fewer than two values or one is not positive
 * @example
 * lognormalFit([1, Math.E ** 2]).mu // => 1
 */
export function lognormalFit(values: readonly number[]): LognormalFit {
  const logs = lifetimesOf({ failures: values }, 'lognormalFit').map((value) => Math.log(value));
  const n = logs.length;
  const mu = mean(logs);
  const variance = logs.reduce((sum, log) => sum + (log - mu) ** 2, 0) / n;
  const logLikelihood = -sum(logs) - (n / 2) * (Math.log(2 * Math.PI * variance) + 1);
  return { mu, sigma: Math.sqrt(variance), ...fitOf(logLikelihood, 2) };
}
