import { mean as meanOf } from 'simple-statistics';
import { type Fit, fitOf, lifetimesOf } from './lifetimes.js';

/** A normal distribution fitted to values. */
export interface NormalFit extends Fit {
  readonly mean: number;
  /** Standard deviation, divisor n. */
  readonly sd: number;
}

/**
 * Maximum likelihood for the normal distribution: mean and standard deviation (divisor n) of the values.
 *
 * @throws ParameterError when there are fewer than two values or one is not positive
 * @example
 * normalFit([1, 3]) // => { mean: 2, sd: 1, logLikelihood: -Math.log(2 * Math.PI) - 1, aic: 2 * (Math.log(2 * Math.PI) + 3) }
 */
export function normalFit(values: readonly number[]): NormalFit {
  const times = lifetimesOf({ failures: values }, 'normalFit');
  const n = times.length;
  const mean = meanOf(times);
  const variance = times.reduce((sum, time) => sum + (time - mean) ** 2, 0) / n;
  return {
    mean,
    sd: Math.sqrt(variance),
    ...fitOf(-(n / 2) * (Math.log(2 * Math.PI * variance) + 1), 2),
  };
}
