import type { DistributionSpec } from '../distributions/index.js';
import type { Uniform } from '../numerics/index.js';
import { type ChosenFamily, chooseFamily, cvInterval, meanInterval, momentsOf } from '../statistics/index.js';
import type { CycleGaps } from './cycleGaps.js';
import type { Figure } from './figure.js';

/** How long one cycle takes. */
export interface CycleFit {
  /** Seconds. */
  readonly spec: DistributionSpec;
  readonly choice: ChosenFamily;
  /** Seconds. */
  readonly mean: Figure;
  /** Standard deviation over mean. */
  readonly cv: Figure;
  /** Times of single cycles, in the order seen, for pictures. */
  readonly seconds: readonly number[];
  readonly gaps: CycleGaps;
}

/**
 * Fits times of single cycles: the distribution by likelihood, its mean with Student's t limits, its coefficient of
 * variation.
 *
 * @returns null when no single cycle was seen
 */
export function fitCycle(
  gaps: CycleGaps,
  options: { readonly confidence: number; readonly uniform: Uniform; readonly samples: number },
): CycleFit | null {
  const seconds = gaps.single.flat().map(({ value }) => value);
  const { confidence, uniform, samples } = options;
  const choice = chooseFamily(seconds, { uniform, samples });
  if (choice === null) return null;
  const n = seconds.length;
  const moments = momentsOf(seconds);
  const mean = meanInterval(moments, confidence, { min: 0 });
  const { family } = choice.spec;
  // What is left between times that are all the same is the rounding of their differences.
  const cv = family === 'constant' ? 0 : Math.sqrt(moments.variance) / moments.mean;
  const spread =
    n < 3 || family === 'constant'
      ? { low: null, high: null }
      : cvInterval(seconds, family === 'normal' || family === 'lognormal' ? family : 'any', confidence);
  return {
    spec: choice.spec,
    choice,
    mean: { value: moments.mean, low: mean.low, high: mean.high, confidence, n },
    cv: { value: n < 2 ? null : cv, ...spread, confidence, n },
    seconds,
    gaps,
  };
}
