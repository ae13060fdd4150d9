import { bisect } from 'simple-statistics';
import { logGamma } from '../../numerics/index.js';

/** Events of one copy over its exposure. */
export interface CopyCount {
  /** Whole number from 0. */
  readonly events: number;
  /** Above 0; the same unit for all copies. */
  readonly exposure: number;
}

/**
 * Log-likelihood of counts whose rates come from a gamma distribution of this shape and mean (negative binomial counts),
 * without the terms in the counts alone.
 *
 * @example
 * gammaPoissonLogLikelihood([{ events: 0, exposure: 1 }], 1, 1).toFixed(9) // => (-Math.LN2).toFixed(9)
 */
export function gammaPoissonLogLikelihood(copies: readonly CopyCount[], shape: number, mean: number): number {
  return shapeTerms(copies, shape) + meanTerms(copies, shape, mean);
}

/** The part that depends on the shape alone; a sum of logarithms, where the difference of log-gammas would lose digits. */
export function shapeTerms(copies: readonly CopyCount[], shape: number): number {
  let sum = 0;
  for (const { events } of copies) {
    if (events > 60) sum += logGamma(shape + events) - logGamma(shape) - events * Math.log(shape);
    else for (let i = 1; i < events; i++) sum += Math.log1p(i / shape);
  }
  return sum;
}

/** The part that depends on the mean too. */
export function meanTerms(copies: readonly CopyCount[], shape: number, mean: number): number {
  let sum = 0;
  for (const { events, exposure } of copies) {
    const expected = mean * exposure;
    sum -= (shape + events) * Math.log1p(expected / shape);
    if (events > 0) sum += events * Math.log(expected);
  }
  return sum;
}

/**
 * Fisher's information on the logarithm of the mean at a known shape: the sum of a m T / (a + m T). Its square root is the
 * density of Jeffreys' prior for that logarithm.
 *
 * @example
 * meanInformation([{ events: 0, exposure: 1 }], 1, 1) // => 0.5
 */
export function meanInformation(copies: readonly CopyCount[], shape: number, mean: number): number {
  return copies.reduce((sum, { exposure }) => {
    const expected = mean * exposure;
    return sum + (shape * expected) / (shape + expected);
  }, 0);
}

/**
 * The mean that maximises the likelihood at this shape, or the likelihood times Jeffreys' prior: the root of the slope in
 * ln m, the sum of a (n - m T) / (a + m T) and, for the prior, half the relative slope of the information. It falls with m.
 */
export function bestMean(copies: readonly CopyCount[], shape: number, prior: 'flat' | 'jeffreys'): number {
  const slope = (logMean: number): number => {
    const mean = Math.exp(logMean);
    let sum = 0;
    let information = 0;
    let change = 0;
    for (const { events, exposure } of copies) {
      const expected = mean * exposure;
      const share = shape / (shape + expected);
      sum += share * (events - expected);
      information += expected * share;
      change += expected * share * share;
    }
    return prior === 'flat' ? sum : sum + (0.5 * change) / information;
  };
  const events = copies.reduce((sum, copy) => sum + copy.events, 0);
  const exposure = copies.reduce((sum, copy) => sum + copy.exposure, 0);
  const start = Math.log(Math.max(events, 0.5) / exposure);
  let low = start - 1;
  while (slope(low) < 0) low -= 2;
  let high = start + 1;
  while (slope(high) > 0) high += 2;
  return Math.exp(bisect(slope, low, high, 100, 1e-10));
}
