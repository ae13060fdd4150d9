import { requireParameter } from '../../errors/index.js';
import { requireCount } from '../requireNumbers.js';
import { bestMean, type CopyCount, gammaPoissonLogLikelihood } from './gammaPoissonLikelihood.js';

/** From one shape tried to the next, in its logarithm. */
const STEP = 0.7;

/** The family that rates of copies come from: a gamma distribution. */
export interface GammaFamily {
  /** Shape a: the larger, the more alike the copies. */
  readonly shape: number;
  /** Rate b, in units of exposure: the mean rate of the family is a / b. */
  readonly rate: number;
}

/**
 * The family of several copies by maximum likelihood: counts are negative binomial when rates are gamma (empirical Bayes,
 * type II maximum likelihood; Gaver & O'Muircheartaigh 1987, Technometrics 29, 1-15; George, Makov & Smith 1993,
 * Scandinavian Journal of Statistics 20, 147-156, from memory).
 *
 * @returns null when the counts differ no more than chance alone makes them: the likelihood has its maximum at copies that
 *   are all the same, which is a statement of too little knowledge rather than of likeness
 * @throws ParameterError when there are fewer than two copies or a number is out of range
 * @example
 * gammaPoissonFit([{ events: 4, exposure: 10 }, { events: 5, exposure: 10 }]) // => null
 */
export function gammaPoissonFit(copies: readonly CopyCount[]): GammaFamily | null {
  requireCount(copies.length, 2, 'gammaPoissonFit', 'copies.length');
  requireCopies(copies, 'gammaPoissonFit');
  const events = copies.reduce((sum, copy) => sum + copy.events, 0);
  if (events === 0) return null;
  const profile = (logShape: number): number => {
    const shape = Math.exp(logShape);
    return gammaPoissonLogLikelihood(copies, shape, bestMean(copies, shape, 'flat'));
  };
  // Shapes of which the copies' expected counts are far below to far above; coarse first, as it may have two hills.
  const middle = Math.log(events / copies.length);
  const steps = Array.from({ length: 31 }, (_, i) => middle - 8 + i * STEP);
  const heights = steps.map(profile);
  const best = heights.indexOf(Math.max(...heights));
  if (best >= steps.length - 2) return null;
  const shape = Math.exp(highest(profile, (steps[best] ?? NaN) - STEP, (steps[best] ?? NaN) + STEP));
  return { shape, rate: shape / bestMean(copies, shape, 'flat') };
}

/** Throws unless every copy has a whole count and an exposure above 0. */
export function requireCopies(copies: readonly CopyCount[], where: string): void {
  for (const { events, exposure } of copies) {
    requireCount(events, 0, where, 'events');
    requireParameter(
      exposure > 0 && exposure < Infinity,
      where,
      'exposure',
      exposure,
      'a finite number above 0',
    );
  }
}

/** Golden section: where a function with one hill is highest. */
function highest(height: (x: number) => number, from: number, to: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let low = from;
  let high = to;
  let left = high - golden * (high - low);
  let right = low + golden * (high - low);
  let atLeft = height(left);
  let atRight = height(right);
  while (high - low > 1e-7) {
    if (atLeft > atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - golden * (high - low);
      atLeft = height(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + golden * (high - low);
      atRight = height(right);
    }
  }
  return (low + high) / 2;
}
