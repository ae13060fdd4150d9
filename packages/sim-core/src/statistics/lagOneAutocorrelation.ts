import { momentsOf } from './moments.js';

/**
 * How alike neighbouring values of a series are: sum of (x_i - m) (x_(i + 1) - m) over sum of (x_i - m)^2, with m the mean
 * of all (Box & Jenkins 1976, Time Series Analysis, 2.1, from memory; the definition of NIST's reference data sets).
 *
 * Near 0 for values that may be treated as independent, such as batch means that are long enough.
 *
 * @param values in the order of time, all finite
 * @returns from -1 to 1; NaN when the values do not vary
 * @example
 * lagOneAutocorrelation([1, 3, 2]) // => -0.5
 */
export function lagOneAutocorrelation(values: readonly number[]): number {
  const { count, mean, variance } = momentsOf(values);
  let products = 0;
  for (let i = 1; i < count; i++) products += ((values[i - 1] ?? NaN) - mean) * ((values[i] ?? NaN) - mean);
  return products / (variance * (count - 1));
}
