import { requireParameter } from '../../errors/index.js';
import { requireChance, requireCount } from '../requireNumbers.js';

/** Limits for a count that is still to come. */
export interface NextCount {
  readonly low: number;
  readonly high: number;
  readonly confidence: number;
}

/** Counts beyond this are not looked for. */
const MOST = 1_000_000;

/**
 * How many events another time of watching will bring, when so many came in this one: from the quantile (1 - confidence) / 2
 * to its opposite of the predictive distribution with Jeffreys' prior. With n events over T, the number over t is negative
 * binomial, P(k) = G(n + 1/2 + k) / (G(n + 1/2) k!) q^(n + 1/2) (1 - q)^k with q = T / (T + t) (Aitchison & Dunsmore 1975,
 * Statistical Prediction Analysis, from memory).
 *
 * @param events seen, whole number from 0
 * @param times the next time over this one, above 0 @default 1
 * @throws ParameterError when a number is out of range
 * @example
 * nextCount(3, 0.95) // => { low: 0, high: 10, confidence: 0.95 }
 */
export function nextCount(events: number, confidence: number, times = 1): NextCount {
  requireCount(events, 0, 'nextCount', 'events');
  requireChance(confidence, 'nextCount', 'confidence');
  requireParameter(times > 0 && times < Infinity, 'nextCount', 'times', times, 'a finite number above 0');
  const shape = events + 0.5;
  const again = times / (1 + times);
  const tail = (1 - confidence) / 2;
  // Logarithms, since the first chances vanish for large counts.
  let logChance = shape * Math.log1p(-again);
  let below = Math.exp(logChance);
  let low = below > tail ? 0 : -1;
  let high = below >= 1 - tail ? 0 : -1;
  for (let k = 1; high < 0 && k < MOST; k++) {
    logChance += Math.log(((shape + k - 1) / k) * again);
    below += Math.exp(logChance);
    if (low < 0 && below > tail) low = k;
    if (below >= 1 - tail) high = k;
  }
  return { low: Math.max(0, low), high: high < 0 ? MOST : high, confidence };
}
