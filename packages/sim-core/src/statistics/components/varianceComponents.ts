import { requireParameter } from '../../errors/index.js';
import { betaQuantile } from '../../numerics/index.js';
import { momentsOf } from '../moments.js';

/** Values in groups of the same size, and how much of their variance lies between groups and how much within. */
export interface VarianceComponents {
  readonly groups: number;
  /** Values in each group. */
  readonly each: number;
  readonly mean: number;
  /** Variance of the groups' true means, 0 where the estimate would be below. */
  readonly between: number;
  /** Variance of a value within its group. */
  readonly within: number;
  readonly meanSquareBetween: number;
  /** Means of the groups, in order. */
  readonly means: readonly number[];
}

/**
 * Variance between groups and within them: one-way analysis of variance with random effects, groups of one size m.
 *
 * within = mean square within, between = (mean square between - mean square within) / m, not below 0 (Searle, Casella &
 * McCulloch 1992, Variance Components, 3.5, from memory; for simulations with drawn parameters: Sun, Apley & Staum 2011,
 * Operations Research 59, 998-1007, from memory).
 *
 * @param groups at least two, each with the same number of values, at least two
 * @throws ParameterError when there are too few groups or values, or sizes differ
 * @example
 * const { within, between } = varianceComponents([[1, 3], [4, 6], [7, 9]]);
 * [within, between] // => [2, 8]
 */
export function varianceComponents(groups: readonly (readonly number[])[]): VarianceComponents {
  const each = groups[0]?.length ?? 0;
  const check: typeof requireParameter = requireParameter;
  check(groups.length >= 2, 'varianceComponents', 'groups', groups.length, 'at least 2');
  check(each >= 2, 'varianceComponents', 'values in a group', each, 'at least 2');
  for (const { length } of groups)
    check(length === each, 'varianceComponents', 'values in a group', length, `${each}, as in the first`);
  const moments = groups.map((values) => momentsOf(values));
  const means = moments.map(({ mean }) => mean);
  const all = momentsOf(means);
  const within = momentsOf(moments.map(({ variance }) => variance)).mean;
  const meanSquareBetween = each * all.variance;
  return {
    groups: groups.length,
    each,
    mean: all.mean,
    between: Math.max(0, (meanSquareBetween - within) / each),
    within,
    meanSquareBetween,
    means,
  };
}

/**
 * The share of the variance of a single value that lies between groups, with its interval: exact for normal values, from the
 * F distribution of the ratio of the mean squares (Searle, Casella & McCulloch 1992, 3.6, from memory).
 *
 * @param confidence above 0 and below 1
 * @example
 * Number(shareBetween(varianceComponents([[1, 3], [4, 6], [7, 9]]), 0.95).mean.toFixed(9)) // => 0.8
 */
export function shareBetween(
  { groups, each, between, within, meanSquareBetween }: VarianceComponents,
  confidence: number,
): { readonly mean: number; readonly low: number; readonly high: number } {
  if (!(within > 0)) return between > 0 ? { mean: 1, low: 1, high: 1 } : { mean: 0, low: 0, high: 1 };
  const degrees = [groups - 1, groups * (each - 1)] as const;
  const ratio = meanSquareBetween / within;
  const at = (p: number): number => {
    const over = (ratio / fQuantile(p, ...degrees) - 1) / each;
    return over > 0 ? over / (1 + over) : 0;
  };
  const tail = (1 - confidence) / 2;
  return { mean: between / (between + within), low: at(1 - tail), high: at(tail) };
}

/** By the beta distribution of d1 F / (d1 F + d2) (Abramowitz & Stegun 1964, 26.6.2, from memory). */
function fQuantile(p: number, d1: number, d2: number): number {
  const x = betaQuantile(p, d1 / 2, d2 / 2);
  return (d2 * x) / (d1 * (1 - x));
}
