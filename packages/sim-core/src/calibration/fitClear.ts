import type { DistributionSpec } from '../distributions/index.js';
import { gammaQuantile, type Uniform } from '../numerics/index.js';
import {
  chooseFamily,
  type ChosenFamily,
  exponentialFit,
  fitFamily,
  lognormalMean,
  meanInterval,
  momentsOf,
} from '../statistics/index.js';
import type { Figure } from './figure.js';

/** Fewer clear times than this tell nothing of their spread: an exponential time is assumed. */
const ENOUGH = 3;

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
 * None: nothing is said. One or two: exponential with their mean, with exact chi-square limits (which hold when clearing is
 * about exponential). From three: the best of lognormal, gamma, Weibull and exponential. Times not seen to their end count
 * as longer than seen, in a lognormal or exponential fit.
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
  const { family } = choice.spec;
  if (open.length > 0 && family !== 'constant') {
    const censored = { failures: seconds, censored: open };
    const spec = fitFamily(family === 'exponential' ? 'exponential' : 'lognormal', censored).spec;
    const value = family === 'exponential' ? exponentialFit(censored).mean : meanOf(spec);
    const limits = family === 'exponential' ? exact : widened(lognormalMean(seconds, confidence), value);
    return { spec, mean: { value, ...limits, confidence, n }, choice, ...common };
  }
  const moments = momentsOf(seconds);
  if (family === 'exponential')
    return { spec: choice.spec, mean: { value: moments.mean, ...exact, confidence, n }, choice, ...common };
  const t = meanInterval(moments, confidence, { min: 0 });
  // Times of clearing have a tail to the right, which Student's t allows for too little while they are few.
  const limits = family === 'constant' || n >= 100 ? t : lognormalMean(seconds, confidence);
  return {
    spec: choice.spec,
    mean: { value: meanOf(choice.spec) ?? moments.mean, low: limits.low, high: limits.high, confidence, n },
    choice,
    ...common,
  };
}

function meanOf(spec: DistributionSpec): number | null {
  return 'mean' in spec ? spec.mean : null;
}

/** Limits that hold the estimate too. */
function widened(
  { low, high }: { readonly low: number; readonly high: number },
  value: number | null,
): { readonly low: number; readonly high: number } {
  return value === null ? { low, high } : { low: Math.min(low, value), high: Math.max(high, value) };
}
