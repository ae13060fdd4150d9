import type { DistributionSpec } from '../../distributions/index.js';
import type { Uniform } from '../../numerics/index.js';
import { type FamilyFit, fitFamily, type FittedFamily } from './fitFamily.js';
import { type GoodnessOfFit, goodnessOfFit } from './goodnessOfFit.js';

/** Fewer values than this are not told apart from any family, and do not stand for themselves. */
const ENOUGH = 30;

/** Times that differ by less than this share of them are the same: no clock of a show tells them apart. */
const SAME = 1e-6;

/** Values drawn in one bootstrap, at most, so that thousands of cycle times take no minute. */
const MOST_DRAWN = 200_000;

const FAMILIES: readonly FittedFamily[] = ['normal', 'lognormal', 'gamma', 'weibull'];

/** Values that goodness of fit is judged by, at most: more would turn away any family for nothing that matters. */
const MOST_TESTED = 2000;

/** Values that stand for themselves, at most. */
const MOST_LISTED = 1000;

export interface ChooseFamilyOptions {
  readonly uniform: Uniform;
  /** @default ['normal', 'lognormal', 'gamma', 'weibull'] */
  readonly families?: readonly FittedFamily[];
  /** A family is given up when its goodness of fit is less probable than this. @default 0.05 */
  readonly alpha?: number;
  /** Samples of the goodness-of-fit test at most; 0 leaves it out. @default 499 */
  readonly samples?: number;
}

/** What was chosen for values, and why. */
export interface ChosenFamily {
  readonly spec: DistributionSpec;
  readonly n: number;
  /** By rising AIC; empty when the values are all the same or fewer than three. */
  readonly fits: readonly FamilyFit[];
  /** Of the best family; null when it was not tested. */
  readonly goodness: GoodnessOfFit | null;
  readonly reason: 'none' | 'one value' | 'all the same' | 'best by AIC' | 'no family fits' | 'values repeat';
}

/**
 * Which distribution stands for these times: a constant, one of the families, or the values themselves.
 *
 * The family with the least AIC (Akaike 1974) is taken. When goodness of fit speaks against it and there are 30 values or
 * more, the values stand for themselves. So they do when they repeat so much (times typed to the whole second) that no
 * family with a density can be tested. A normal distribution is tried only while hardly any of it lies below zero
 * (mean above 3 standard deviations), because it is cut off there.
 *
 * @param values above 0
 * @returns null when there are no values
 * @throws ParameterError when a value is not positive
 * @example
 * const uniform = stream({ seed: 1, replication: 0, place: null, purpose: 'choice' });
 * chooseFamily([3, 3, 3], { uniform }).spec // => { family: 'constant', value: 3 }
 */
export function chooseFamily(values: readonly number[], options: ChooseFamilyOptions): ChosenFamily | null {
  const { uniform, families = FAMILIES, alpha = 0.05, samples: most = 499 } = options;
  const n = values.length;
  const [first] = values;
  if (first === undefined) return null;
  const none = { n, fits: [], goodness: null };
  const constant = (value: number): DistributionSpec => ({ family: 'constant', value });
  if (n === 1) return { spec: constant(first), ...none, reason: 'one value' };
  if (values.every((value) => Math.abs(value - first) <= SAME * first))
    return { spec: constant(first), ...none, reason: 'all the same' };
  const fits = families
    .map((family) => fitFamily(family, { failures: values }))
    .filter(canBeDrawn)
    .toSorted((a, b) => a.aic - b.aic);
  const best = fits[0];
  const themselves: DistributionSpec = { family: 'empirical', values: standingFor(values) };
  if (best === undefined) return { spec: themselves, n, fits, goodness: null, reason: 'no family fits' };
  if (n >= ENOUGH && new Set(values).size < n / 2)
    return { spec: themselves, n, fits, goodness: null, reason: 'values repeat' };
  if (n < 3 || most === 0) return { spec: best.spec, n, fits, goodness: null, reason: 'best by AIC' };
  const samples = Math.max(99, Math.min(most, Math.floor(MOST_DRAWN / Math.min(n, MOST_TESTED))));
  const goodness = goodnessOfFit(best.family, thinned(values), { uniform, samples });
  return n >= ENOUGH && goodness.pValue < alpha
    ? { spec: themselves, n, fits, goodness, reason: 'no family fits' }
    : { spec: best.spec, n, fits, goodness, reason: 'best by AIC' };
}

/** One value of every so many, in the order given. */
function thinned(values: readonly number[]): readonly number[] {
  const every = Math.ceil(values.length / MOST_TESTED);
  return every === 1 ? values : values.filter((_, i) => i % every === 0);
}

/** The values in rising order, or so many evenly spaced among them that a scenario file can still be read. */
function standingFor(values: readonly number[]): number[] {
  const sorted = values.toSorted((a, b) => a - b);
  if (sorted.length <= MOST_LISTED) return sorted;
  return Array.from(
    { length: MOST_LISTED },
    (_, i) => sorted[Math.floor(((i + 0.5) * sorted.length) / MOST_LISTED)] ?? NaN,
  );
}

/** Well within what the family can be drawn with, and hardly cut off at zero. */
function canBeDrawn({ spec }: FamilyFit): boolean {
  switch (spec.family) {
    case 'normal':
      return spec.cv < 1 / 3;
    case 'lognormal':
      return spec.cv <= 50;
    case 'gamma':
      return spec.cv >= 0.002 && spec.cv <= 5;
    case 'weibull':
      return 'shape' in spec && spec.shape >= 0.2 && spec.shape <= 300;
    default:
      return true;
  }
}
