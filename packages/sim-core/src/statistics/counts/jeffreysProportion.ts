import { requireParameter } from '../../errors/index.js';
import { betaQuantile } from '../../numerics/index.js';
import { requireChance } from '../requireNumbers.js';
import type { Limits } from './limits.js';

/**
 * Limits of a chance from a count, by Jeffreys' prior: quantiles of the beta distribution with successes + 1/2 and
 * failures + 1/2. With none seen the lower limit is 0, with all seen the upper limit 1 (Brown, Cai & DasGupta 2001,
 * Statistical Science 16, 101-133, from memory).
 *
 * Right on average over what the chance may be, and shorter than the exact limits ({@link clopperPearson}), which are
 * right or on the safe side for each.
 *
 * @param successes from 0 to `trials`; need not be whole
 * @param trials above 0
 * @throws ParameterError when a number is out of range
 * @example
 * jeffreysProportion(0, 10, 0.95).high.toFixed(3) // => '0.217'
 */
export function jeffreysProportion(successes: number, trials: number, confidence: number): Limits {
  requireChance(confidence, 'jeffreysProportion', 'confidence');
  requireParameter(
    trials > 0 && trials < Infinity,
    'jeffreysProportion',
    'trials',
    trials,
    'a finite number above 0',
  );
  requireParameter(
    successes >= 0 && successes <= trials,
    'jeffreysProportion',
    'successes',
    successes,
    `0 to ${trials}`,
  );
  const tail = (1 - confidence) / 2;
  const a = successes + 0.5;
  const b = trials - successes + 0.5;
  return {
    low: successes === 0 ? 0 : betaQuantile(tail, a, b),
    high: successes === trials ? 1 : betaQuantile(1 - tail, a, b),
  };
}
