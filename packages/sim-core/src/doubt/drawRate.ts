import { betaQuantile, gammaQuantile } from '../numerics/index.js';

/** So many events over so much, counted or known before. */
export interface Count {
  readonly stops: number;
  readonly over: number;
}

/** Jeffreys' prior for a rate and for a chance: half an event, over nothing. */
const JEFFREYS = 0.5;

/**
 * Quantile of what a count leaves open of a rate: events per unit of what they were counted over.
 *
 * With n events over T, rate ~ Gamma(n + a, T + b): a = 1/2, b = 0 when nothing is known before (Jeffreys' prior), or the
 * events and time of the prior (Gelman et al. 2013, Bayesian Data Analysis, 3rd ed., 2.6 and 2.8, from memory).
 *
 * @param p above 0 and below 1
 * @param counted events and time, time above 0
 * @param prior the same of others of its kind
 * @example
 * rateQuantile(0.5, { stops: 3, over: 3300 }, { stops: 0.5, over: 0 }) === rateQuantile(0.5, { stops: 3, over: 3300 }) // => true
 */
export function rateQuantile(p: number, counted: Count, prior?: Count): number {
  const shape = counted.stops + (prior?.stops ?? JEFFREYS);
  return gammaQuantile(p, shape > 0 ? shape : JEFFREYS) / (counted.over + (prior?.over ?? 0));
}

/**
 * Quantile of what a count leaves open of a chance per cycle or ball.
 *
 * With n events in N trials, chance ~ Beta(n + a, N - n + b): a = b = 1/2 when nothing is known before (Jeffreys' prior), or
 * a events and b trials without one of the prior (Gelman et al. 2013, 2.4 and 2.8, from memory).
 *
 * @param p above 0 and below 1
 * @param counted events and trials, no more events than trials
 * @param prior the same of others of its kind
 * @example
 * Number(chanceQuantile(0.5, { stops: 5, over: 10 }).toFixed(9)) // => 0.5
 */
export function chanceQuantile(p: number, counted: Count, prior?: Count): number {
  const a = counted.stops + (prior?.stops ?? JEFFREYS);
  const b = counted.over - counted.stops + (prior === undefined ? JEFFREYS : prior.over - prior.stops);
  return betaQuantile(p, a > 0 ? a : JEFFREYS, b > 0 ? b : JEFFREYS);
}
