import type { DistributionSpec } from '../distributions/index.js';
import { gammaQuantile, type Uniform } from '../numerics/index.js';
import {
  chooseFamily,
  type ChosenFamily,
  fitFamily,
  lognormalMean,
  meanInterval,
  momentsOf,
} from '../statistics/index.js';
import type { Figure } from './figure.js';

/** Fewer clear times than this tell nothing of their spread: an exponential time is assumed. */
const ENOUGH = 5;
/** From so many on Student's t interval of the mean is good enough, in spite of their tail. */
const ENOUGH_FOR_T = 100;

/** How long clearing takes. */
export interface ClearFit {
  /** Seconds. */
  readonly spec: DistributionSpec;
  /** Seconds. */
  readonly mean: Figure;
  /** Null when too few were seen to choose. */
  readonly choice: ChosenFamily | null;
  /** The times seen to their end, seconds. */
  readonly seconds: readonly number[];
  /** Stops whose clearing was not seen: they lasted so long at least. */
  readonly open: readonly number[];
  /** Whether the times of all causes were taken together, because this one has too few. */
  readonly pooled: boolean;
}

/**
 * Fits times from stop to cleared.
 *
 * None: nothing is said. One to four: exponential with their mean, with exact chi-square limits (which hold when clearing is
 * about exponential): of so few a tail could be as long as anything. From five on: the best of lognormal, gamma, Weibull and exponential, and limits of the mean that allow for a
 * tail of long times. Times not seen to their end count as longer than seen, in a lognormal or exponential fit.
 *
 * @returns null when no clearing was seen to its end
 */
export function fitClear(
  seconds: readonly number[],
  open: readonly number[],
  options: {
    readonly confidence: number;
    readonly uniform: Uniform;
    readonly samples: number;
    readonly pooled: boolean;
  },
): ClearFit | null {
  const n = seconds.length;
  if (n === 0) return null;
  const { confidence, uniform, samples, pooled } = options;
  const common = { seconds, open, pooled };
  const total = [...seconds, ...open].reduce((sum, time) => sum + time, 0);
  const tail = (1 - confidence) / 2;
  const exact = { low: total / gammaQuantile(1 - tail, n), high: total / gammaQuantile(tail, n) };
  if (n < ENOUGH) {
    const mean = total / n;
    return {
      spec: { family: 'exponential', mean },
      mean: { value: mean, ...exact, confidence, n },
      choice: null,
      ...common,
    };
  }
  const choice = chooseFamily(seconds, {
    uniform,
    samples,
    families: ['lognormal', 'gamma', 'weibull', 'exponential'],
  });
  if (choice === null) return null;
  const moments = momentsOf(seconds);
  const { family } = choice.spec;
  if (family === 'constant' || (n >= ENOUGH_FOR_T && open.length === 0)) {
    const { low, high } = meanInterval(moments, confidence, { min: 0 });
    return { spec: choice.spec, mean: { value: moments.mean, low, high, confidence, n }, choice, ...common };
  }
  const spec =
    open.length === 0
      ? choice.spec
      : fitFamily(family === 'exponential' ? family : 'lognormal', { failures: seconds, censored: open })
          .spec;
  const value = meanOf(spec) ?? moments.mean;
  // Whatever the family: which one it is can hardly be told from few times, and all have a tail to the right.
  const limits = lognormalMean(seconds, confidence);
  return {
    spec,
    mean: { value, low: Math.min(limits.low, value), high: Math.max(limits.high, value), confidence, n },
    choice,
    ...common,
  };
}

/** The mean of a family that is written by it. */
function meanOf(spec: DistributionSpec): number | null {
  return 'mean' in spec ? spec.mean : null;
}
