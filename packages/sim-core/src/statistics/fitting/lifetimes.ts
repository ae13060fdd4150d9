import { requireParameter } from '../../errors/index.js';

/** Times until something happened, and times of watching in which it did not. */
export interface Lifetimes {
  /** In any unit, above 0; at least two, not all the same. */
  readonly failures: readonly number[];
  /** Watched so long without a failure (right censored), in the same unit. @default [] */
  readonly censored?: readonly number[];
}

/** A family of distributions fitted by maximum likelihood. */
export interface Fit {
  /** Natural logarithm of the likelihood at its maximum. */
  readonly logLikelihood: number;
  /** Akaike's criterion: 2 x parameters - 2 x log-likelihood; the smaller the better (Akaike 1974). */
  readonly aic: number;
}

/** All times, failures first; refuses what no lifetime can be. */
export function lifetimesOf({ failures, censored = [] }: Lifetimes, where: string): number[] {
  requireParameter(failures.length >= 2, where, 'failures.length', failures.length, 'at least 2');
  const times = [...failures, ...censored];
  for (const time of times)
    requireParameter(time > 0 && time < Infinity, where, 'time', time, 'a finite number above 0');
  return times;
}

export function fitOf(logLikelihood: number, parameters: number): Fit {
  return { logLikelihood, aic: 2 * parameters - 2 * logLikelihood };
}
