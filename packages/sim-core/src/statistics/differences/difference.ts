import { studentTCdf, studentTQuantile } from '../../numerics/index.js';
import type { Estimate } from '../estimate.js';

/** The difference of two means and all that a decision on it needs. */
export interface Difference {
  /** In the unit of the values; `replications` counts pairs when paired, the values of both columns when not. */
  readonly difference: Estimate;
  /** Of the difference; null with too few values. */
  readonly standardError: number | null;
  /** Of Student's t, not always whole; null with too few values. */
  readonly degrees: number | null;
  /** Difference over its standard error; null when nothing varies. */
  readonly t: number | null;
  /** Chance of a difference at least as far from zero if there were none; null when nothing varies. */
  readonly p: number | null;
}

/** What is known of a difference before a confidence is chosen. */
export interface DifferenceFacts {
  readonly mean: number;
  readonly standardError: number;
  readonly degrees: number;
  readonly replications: number;
}

/** Student's t interval, statistic and two-sided p of a difference. */
export function studentDifference(facts: DifferenceFacts, confidence: number): Difference {
  const { mean, standardError, degrees } = facts;
  const t = standardError > 0 ? mean / standardError : null;
  return {
    difference: studentInterval(facts, confidence),
    standardError,
    degrees,
    t,
    p: t === null ? null : 2 * studentTCdf(-Math.abs(t), degrees),
  };
}

/** Student's t interval of a difference; without width when nothing varies. */
export function studentInterval(facts: DifferenceFacts, confidence: number): Estimate {
  const { mean, standardError, degrees, replications } = facts;
  // Without spread the degrees of Welch and Satterthwaite are 0 / 0.
  const half = standardError > 0 ? studentTQuantile(0.5 + confidence / 2, degrees) * standardError : 0;
  return { mean, low: mean - half, high: mean + half, confidence, replications };
}

/** What there is to say of a difference with too few values. */
export function noDifference(mean: number | null, confidence: number, replications: number): Difference {
  return {
    difference: { mean, low: null, high: null, confidence, replications },
    standardError: null,
    degrees: null,
    t: null,
    p: null,
  };
}
