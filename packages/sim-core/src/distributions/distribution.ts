import type { Uniform } from '../numerics/index.js';

/**
 * A distribution of times, built once from checked parameters. All families here live on numbers from 0 up.
 *
 * `sample` draws by inversion: exactly one uniform number for each value, so that two designs that share a stream of
 * random numbers stay in step. A constant draws none.
 */
export interface Distribution {
  readonly family: string;
  /** Expected value, in the unit of the parameters (seconds throughout this package). */
  readonly mean: number;
  /** Variance, in that unit squared. */
  readonly variance: number;
  /** P(X <= x). */
  cdf(x: number): number;
  /** The smallest x with P(X <= x) >= p, for p from 0 to 1; the ends of the range at 0 and 1. */
  quantile(p: number): number;
  /** Draws one value. */
  sample(uniform: Uniform): number;
}

/** Adds `sample` by inversion to the other members of a distribution. */
export function invertible(parts: Omit<Distribution, 'sample'>): Distribution {
  const quantile = parts.quantile;
  return { ...parts, sample: (uniform) => quantile(uniform()) };
}
