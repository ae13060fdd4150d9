import { type Distribution } from '../../distributions/index.js';
import type { Uniform } from '../../numerics/index.js';
import { requireCount } from '../requireNumbers.js';
import { andersonDarling, kolmogorovSmirnov } from './edfStatistics.js';
import { type FittedFamily, fitFamily, fittedDistribution } from './fitFamily.js';

export interface GoodnessOfFitOptions {
  /** Source of the random numbers. */
  readonly uniform: Uniform;
  /** @default 'anderson-darling' */
  readonly statistic?: 'anderson-darling' | 'kolmogorov-smirnov';
  /** Samples drawn from the fitted distribution. @default 499 */
  readonly samples?: number;
}

/** How well a fitted family suits the values. */
export interface GoodnessOfFit {
  readonly statistic: number;
  /** Chance of a statistic as large or larger if the values do come from the family. */
  readonly pValue: number;
  readonly samples: number;
}

/**
 * Do the values look as if they came from this family? Parametric bootstrap: samples of the same size are drawn from the
 * fitted distribution, the family is fitted to each anew, and the statistics compared. Critical values for known
 * parameters would be far too large (Stephens 1974, JASA 69, 730-737; Stute, Gonzalez Manteiga & Presedo Quindimil 1993,
 * Metrika 40, 243-256).
 *
 * p = (1 + how many are as large) / (1 + samples).
 *
 * @param values at least three, above 0, not all the same
 * @throws ParameterError when there are too few values, one is not positive, or all are the same
 * @example
 * const uniform = stream({ seed: 1, replication: 0, place: null, purpose: 'goodness of fit' });
 * const values = [0.1, 0.2, 0.3, 0.4, 0.5, 30, 31, 32, 33, 34];
 * goodnessOfFit('normal', values, { uniform }).pValue < 0.05 // => true
 */
export function goodnessOfFit(
  family: FittedFamily,
  values: readonly number[],
  options: GoodnessOfFitOptions,
): GoodnessOfFit {
  requireCount(values.length, 3, 'goodnessOfFit', 'values.length');
  const { uniform, samples = 499, statistic = 'anderson-darling' } = options;
  requireCount(samples, 1, 'goodnessOfFit', 'samples');
  const distance = statistic === 'anderson-darling' ? andersonDarling : kolmogorovSmirnov;
  const fitted = fittedDistribution(fitFamily(family, { failures: values }));
  const seen = distance(chancesOf(values, fitted));
  let asLarge = 0;
  for (let b = 0; b < samples; b++) {
    const drawn = values.map(() => Math.max(fitted.sample(uniform), Number.MIN_VALUE));
    const again = fittedDistribution(fitFamily(family, { failures: drawn }));
    if (distance(chancesOf(drawn, again)) >= seen) asLarge++;
  }
  return { statistic: seen, pValue: (1 + asLarge) / (1 + samples), samples };
}

/**
 * The distribution function at the values in rising order.
 *
 * @example
 * Array.from(chancesOf([3, 1], { cdf: (x) => x / 4 })) // => [0.25, 0.75]
 */
export function chancesOf(values: readonly number[], distribution: Pick<Distribution, 'cdf'>): Float64Array {
  return Float64Array.from(values, (value) => distribution.cdf(value)).sort();
}
