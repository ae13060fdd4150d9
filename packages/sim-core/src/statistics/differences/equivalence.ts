import { requireParameter } from '../../errors/index.js';
import { studentTCdf } from '../../numerics/index.js';
import type { Estimate } from '../estimate.js';
import { type Difference, studentInterval } from './difference.js';

/** Whether a difference is too small to matter. */
export interface Equivalence {
  /** True when the interval lies within the margin. */
  readonly equivalent: boolean;
  /** Of the difference, at confidence 1 - 2 alpha. */
  readonly interval: Estimate;
  /** The larger p of the two one-sided tests; null when nothing varies or there are too few values. */
  readonly p: number | null;
}

/**
 * Two one-sided tests: is the difference for sure between -margin and margin? (Schuirmann 1987, J. Pharmacokinetics and
 * Biopharmaceutics 15, 657-680.)
 *
 * Both tests reject at level alpha just when Student's t interval at 1 - 2 alpha lies within the margin. A difference that
 * is not shown to matter is not yet one that is shown not to matter; this shows the latter.
 *
 * @param difference as {@link pairedDifference} or {@link welchDifference} gives it
 * @param margin differences up to this do not matter, in the unit of the values, from 0
 * @param alpha chance to call a difference at the margin equivalent, above 0 and below 0.5
 * @throws ParameterError when the margin or alpha is out of range
 * @example
 * const difference = pairedDifference([10, 20, 30, 40], [11, 21, 30, 40], 0.95);
 * equivalence(difference, 2, 0.05).equivalent // => true
 */
export function equivalence(difference: Difference, margin: number, alpha: number): Equivalence {
  requireParameter(
    margin >= 0 && margin < Infinity,
    'equivalence',
    'margin',
    margin,
    'a finite number from 0',
  );
  requireParameter(alpha > 0 && alpha < 0.5, 'equivalence', 'alpha', alpha, 'above 0 and below 0.5');
  const { standardError, degrees } = difference;
  const { mean, replications } = difference.difference;
  const confidence = 1 - 2 * alpha;
  if (mean === null || standardError === null || degrees === null)
    return {
      equivalent: false,
      interval: { mean, low: null, high: null, confidence, replications },
      p: null,
    };
  const interval = studentInterval({ mean, standardError, degrees, replications }, confidence);
  const p = standardError > 0 ? studentTCdf((Math.abs(mean) - margin) / standardError, degrees) : null;
  return { equivalent: isWithin(interval, margin), interval, p };
}

/** Whether an interval lies between -margin and margin; never when it has no limits. */
export function isWithin({ low, high }: Estimate, margin: number): boolean {
  return low !== null && high !== null && low >= -margin && high <= margin;
}
