import { requireParameter } from '../../errors/index.js';
import type { Estimate } from '../estimate.js';
import { isWithin } from './equivalence.js';

/** What a difference comes to; `lower` and `higher` say where the second of the two lies. */
export type DifferenceVerdict = 'lower' | 'higher' | 'no difference that matters' | 'undecided';

/**
 * The verdict on a difference from its interval.
 *
 * "No difference that matters" when the interval for that question lies within the margin (two one-sided tests, Schuirmann
 * 1987), even if it leaves out zero; else "lower" or "higher" when the interval leaves out zero; else "undecided". An
 * interval without width, because the difference was the same in all replications, is taken at its word.
 *
 * @param interval of the difference, at 1 - alpha
 * @param margin differences up to this do not matter, in the unit of the interval, from 0
 * @param within the interval at 1 - 2 alpha, as {@link equivalence} gives it; leave it out for a confidence sequence, where
 *   one interval must serve both questions @default interval
 * @throws ParameterError when the margin is out of range
 * @example
 * verdictOfDifference({ mean: 3, low: 1, high: 5, confidence: 0.95, replications: 40 }, 0.5) // => 'higher'
 * @example
 * verdictOfDifference({ mean: 0.1, low: -0.2, high: 0.4, confidence: 0.95, replications: 40 }, 0.5) // => 'no difference that matters'
 */
export function verdictOfDifference(
  interval: Estimate,
  margin: number,
  within: Estimate = interval,
): DifferenceVerdict {
  requireParameter(
    margin >= 0 && margin < Infinity,
    'verdictOfDifference',
    'margin',
    margin,
    'a finite number from 0',
  );
  if (isWithin(within, margin)) return 'no difference that matters';
  if (interval.low !== null && interval.low > 0) return 'higher';
  if (interval.high !== null && interval.high < 0) return 'lower';
  return 'undecided';
}
