/**
 * A distribution as plain data, as it stands in a scenario and travels to worker threads. Times are seconds.
 *
 * `cv` is the coefficient of variation: standard deviation divided by mean.
 */
export type DistributionSpec =
  | { readonly family: 'constant'; readonly value: number }
  | { readonly family: 'uniform'; readonly min: number; readonly max: number }
  | { readonly family: 'triangular'; readonly min: number; readonly mode: number; readonly max: number }
  | { readonly family: 'normal'; readonly mean: number; readonly cv: number }
  | { readonly family: 'lognormal'; readonly mean: number; readonly cv: number }
  | { readonly family: 'gamma'; readonly mean: number; readonly cv: number }
  | { readonly family: 'erlang'; readonly mean: number; readonly stages: number }
  | { readonly family: 'exponential'; readonly mean: number }
  | { readonly family: 'weibull'; readonly scale: number; readonly shape: number }
  | { readonly family: 'weibull'; readonly mean: number; readonly cv: number }
  | { readonly family: 'empirical'; readonly values: readonly number[] };

/** Name of a family of distributions. */
export type DistributionFamily = DistributionSpec['family'];
