import { bisect } from 'simple-statistics';
import { chiSquareCdf, gammaQuantile } from '../../numerics/index.js';
import { requireChance } from '../requireNumbers.js';
import { exponentialFit } from './exponentialFit.js';
import type { Lifetimes } from './lifetimes.js';
import { weibullFit, weibullLogLikelihood } from './weibullFit.js';

/** Does the time to the next stop depend on how long it has run? */
export interface WearCheck {
  /** Shape of the Weibull distribution: above 1 wears out, below 1 fails early. */
  readonly shape: number;
  readonly scale: number;
  /** Limits of the shape. */
  readonly low: number;
  readonly high: number;
  readonly confidence: number;
  /** Twice the gain in log-likelihood over the exponential distribution. */
  readonly statistic: number;
  /** Chance of such a gain if it does not depend, few stops allowed for. */
  readonly pValue: number;
  readonly stops: number;
}

/**
 * The Weibull distribution against the exponential one, with right censoring: likelihood ratio on one degree of freedom
 * (Wilks 1938, Annals of Mathematical Statistics 9, 60-62), and the limits of the shape by the same ratio.
 *
 * With few stops the plain ratio claims wear too often and its limits hold the shape too seldom. Limits and p-value
 * therefore use the modified profile likelihood, ln L - 2 ln(shape) when every time was seen to its end (Yang & Xie 2003,
 * Journal of Statistical Computation and Simulation 73, 115-123, from memory); with censored times 2 is multiplied by the
 * share of stops among all times, which is a choice of ours that simulation supports.
 *
 * @throws ParameterError when there are fewer than two stops, a time is not positive, or all are the same
 * @example
 * wearCheck({ failures: [98, 99, 100, 101, 102] }, 0.95).pValue < 0.001 // => true
 */
export function wearCheck(lifetimes: Lifetimes, confidence: number): WearCheck {
  requireChance(confidence, 'wearCheck', 'confidence');
  const fit = weibullFit(lifetimes);
  const stops = lifetimes.failures.length;
  const less = (2 * stops) / (stops + (lifetimes.censored?.length ?? 0));
  const height = (logShape: number): number =>
    weibullLogLikelihood(lifetimes, Math.exp(logShape)) - less * logShape;
  const hill = highest(height, Math.log(fit.shape) - 3, Math.log(fit.shape) + 1);
  const top = height(hill);
  const ratio = (logShape: number): number => 2 * (top - height(logShape));
  // The square of a normal variable is twice a gamma variable of shape 1/2.
  const most = 2 * gammaQuantile(confidence, 0.5);
  const limit = (way: 1 | -1): number => {
    let far = 0.25;
    while (ratio(hill + way * far) < most) far *= 2;
    return Math.exp(hill + way * bisect((x: number) => ratio(hill + way * x) - most, 0, far, 100, 1e-7));
  };
  return {
    shape: fit.shape,
    scale: fit.scale,
    low: limit(-1),
    high: limit(1),
    confidence,
    statistic: 2 * (fit.logLikelihood - exponentialFit(lifetimes).logLikelihood),
    pValue: 1 - chiSquareCdf(ratio(0), 1),
    stops,
  };
}

/** Where a function with one hill is highest, by parts of a third. */
function highest(height: (x: number) => number, from: number, to: number): number {
  let low = from;
  let high = to;
  while (high - low > 1e-5) {
    const third = (high - low) / 3;
    if (height(low + third) < height(high - third)) low += third;
    else high -= third;
  }
  return (low + high) / 2;
}
