import { requireParameter } from '../errors/index.js';
import { type Distribution, invertible } from './distribution.js';

/**
 * Between `min` and `max`, most often near `mode`: the distribution for "from 2 to 5 seconds, usually 3".
 *
 * mean = (a + c + b) / 3, variance = (a^2 + b^2 + c^2 - ab - ac - bc) / 18 with a = min, b = max, c = mode.
 *
 * @param options.min 0 or more
 * @param options.mode from `min` to `max`
 * @param options.max above `min`
 * @throws ParameterError when the three are out of order
 * @example
 * triangular({ min: 2, mode: 3, max: 7 }).mean // => 4
 */
export function triangular(options: {
  readonly min: number;
  readonly mode: number;
  readonly max: number;
}): Distribution {
  const { min, mode, max } = options;
  requireParameter(min >= 0, 'triangular', 'min', min, 'a number from 0');
  requireParameter(
    max > min && max < Infinity,
    'triangular',
    'max',
    max,
    `a finite number above min (${min})`,
  );
  requireParameter(
    mode >= min && mode <= max,
    'triangular',
    'mode',
    mode,
    `from min (${min}) to max (${max})`,
  );
  const width = max - min;
  const left = mode - min;
  const right = max - mode;
  const split = left / width;
  return invertible({
    family: 'triangular',
    mean: (min + mode + max) / 3,
    variance: (left * left + left * right + right * right) / 18,
    cdf: (x) => {
      if (x <= min) return 0;
      if (x >= max) return 1;
      return x < mode ? (x - min) ** 2 / (width * left) : 1 - (max - x) ** 2 / (width * right);
    },
    quantile: (p) =>
      p < split ? min + Math.sqrt(p * width * left) : max - Math.sqrt((1 - p) * width * right),
  });
}
