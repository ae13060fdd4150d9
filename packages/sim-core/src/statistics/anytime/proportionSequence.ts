import { bisect } from 'simple-statistics';
import { requireParameter } from '../../errors/index.js';
import { logGamma } from '../../numerics/index.js';
import type { Estimate } from '../estimate.js';
import { requireChance, requireCount } from '../requireNumbers.js';

/** Width at which halving a range of shares stops: the limits are good to 12 decimals. */
const FINEST = 1e-13;
const STEPS = 60;

/**
 * Share of replications in which something happened, with an interval that may be looked at after every replication: with
 * chance `confidence` it holds the true share at every look of an endless study.
 *
 * After k in n the interval is that of all p with (n + 1) C(n, k) p^k (1 - p)^(n - k) > alpha: the inverse of the left side
 * is the likelihood ratio of the uniform mixture over all shares to p, a martingale that starts at 1 and ever reaches
 * 1 / alpha with chance at most alpha (Ville 1939; Robbins 1970, Annals of Mathematical Statistics 41, 1397-1409). Exact
 * for every n, no normal approximation.
 *
 * @param successes whole number from 0 to `trials`
 * @param trials whole number from 0
 * @param confidence 1 - alpha, above 0 and below 1
 * @throws ParameterError when a number is out of range
 * @example
 * const { low, high } = proportionSequence(0, 10, 0.95);
 * [low, high.toFixed(4)] // => [0, '0.4169']
 */
export function proportionSequence(successes: number, trials: number, confidence: number): Estimate {
  requireChance(confidence, 'proportionSequence', 'confidence');
  requireCount(trials, 0, 'proportionSequence', 'trials');
  requireParameter(
    Number.isSafeInteger(successes) && successes >= 0 && successes <= trials,
    'proportionSequence',
    'successes',
    successes,
    `a whole number from 0 to ${trials}`,
  );
  const common = { confidence, replications: trials };
  if (trials === 0) return { mean: null, low: null, high: null, ...common };
  const failures = trials - successes;
  const share = successes / trials;
  const ways = logGamma(trials + 2) - logGamma(successes + 1) - logGamma(failures + 1);
  const target = Math.log1p(-confidence) - ways;
  // Zero times the logarithm of zero counts as zero: p^0 is 1.
  const power = (count: number, base: number): number => (count === 0 ? 0 : count * Math.log(base));
  const above = (p: number): number => power(successes, p) + power(failures, 1 - p) - target;
  return {
    mean: share,
    low: successes === 0 ? 0 : bisect(above, 0, share, STEPS, FINEST),
    high: failures === 0 ? 1 : bisect(above, share, 1, STEPS, FINEST),
    ...common,
  };
}
