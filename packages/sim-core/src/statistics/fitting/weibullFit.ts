import { bisect } from 'simple-statistics';
import { requireParameter } from '../../errors/index.js';
import { type Fit, fitOf, type Lifetimes, lifetimesOf } from './lifetimes.js';

/** A Weibull distribution fitted to lifetimes. */
export interface WeibullFit extends Fit {
  readonly shape: number;
  /** In the unit of the times. */
  readonly scale: number;
}

/**
 * Maximum likelihood for the Weibull distribution, with right censoring.
 *
 * The shape k solves sum(t^k ln t) / sum(t^k) - 1/k = mean of ln t over the failures, sums over all times; the scale is
 * (sum(t^k) / failures)^(1/k) (Cohen 1965, Technometrics 7, 579-588, from memory).
 *
 * @throws ParameterError when there are too few failures, a time is not positive, or all failures come at the longest time
 * @example
 * weibullFit({ failures: [17.88, 28.92, 33, 41.52, 42.12, 45.6] }).shape > 1 // => true
 */
export function weibullFit(lifetimes: Lifetimes): WeibullFit {
  const times = lifetimesOf(lifetimes, 'weibullFit');
  const longest = times.reduce((most, time) => Math.max(most, time), 0);
  // Where all that failed did so at the longest time, the likelihood rises with the shape for ever.
  requireParameter(
    lifetimes.failures.some((time) => time < longest),
    'weibullFit',
    'failures',
    longest,
    'not the same each time',
  );
  const { failures } = lifetimes;
  const failed = failures.length;
  // In units of the longest, so that no power overflows.
  const logs = times.map((time) => Math.log(time / longest));
  const failedLogs = failures.reduce((sum, time) => sum + Math.log(time / longest), 0);
  const powers = (shape: number): number => logs.reduce((sum, log) => sum + Math.exp(shape * log), 0);
  // It rises with the shape: minus infinity at 0, at last above 0.
  const equation = (shape: number): number =>
    logs.reduce((sum, log) => sum + log * Math.exp(shape * log), 0) / powers(shape) -
    1 / shape -
    failedLogs / failed;
  let most = 1;
  while (equation(most) < 0) most *= 2;
  // Times that are nearly the same have a shape of hundreds, whose last digit is coarser than any fixed tolerance.
  const shape = bisect(equation, most / 2 ** 40, most, 200, Math.max(1e-14, most * Number.EPSILON));
  const relative = (powers(shape) / failed) ** (1 / shape);
  const scale = longest * relative;
  return { shape, scale, ...fitOf(weibullLogLikelihood(lifetimes, shape), 2) };
}

/**
 * Logarithm of the likelihood of a Weibull distribution of this shape at the best scale for it.
 *
 * @example
 * weibullLogLikelihood({ failures: [1, 2, 3] }, 1).toFixed(9) // => (-3 * (Math.log(2) + 1)).toFixed(9)
 */
export function weibullLogLikelihood({ failures, censored = [] }: Lifetimes, shape: number): number {
  let longest = 0;
  for (const time of failures) longest = Math.max(longest, time);
  for (const time of censored) longest = Math.max(longest, time);
  let powers = 0;
  let logs = 0;
  for (const time of failures) {
    powers += (time / longest) ** shape;
    logs += Math.log(time);
  }
  for (const time of censored) powers += (time / longest) ** shape;
  const failed = failures.length;
  const logScale = Math.log(longest) + Math.log(powers / failed) / shape;
  return failed * (Math.log(shape) - shape * logScale) + (shape - 1) * logs - failed;
}
