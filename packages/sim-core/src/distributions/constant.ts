import { requireParameter } from '../errors/index.js';
import type { Distribution } from './distribution.js';

/**
 * Always the same value; draws no random number.
 *
 * @param options.value 0 or more
 * @throws ParameterError when the value is negative or not finite
 * @example
 * constant({ value: 3.6 }).mean // => 3.6
 */
export function constant(options: { readonly value: number }): Distribution {
  const { value } = options;
  requireParameter(value >= 0 && value < Infinity, 'constant', 'value', value, 'a finite number from 0');
  return {
    family: 'constant',
    mean: value,
    variance: 0,
    cdf: (x) => (x >= value ? 1 : 0),
    quantile: () => value,
    sample: () => value,
  };
}
