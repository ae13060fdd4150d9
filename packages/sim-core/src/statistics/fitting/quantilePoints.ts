import type { Distribution } from '../../distributions/index.js';

/** One point of a quantile-quantile picture. */
export interface QuantilePoint {
  /** Where the distribution has it. */
  readonly expected: number;
  /** The value itself. */
  readonly seen: number;
}

/**
 * Points of a quantile-quantile picture: each value, in rising order, beside the quantile of the distribution at its
 * plotting position (i - 1/2) / n (Hazen 1914; NIST/SEMATECH e-Handbook 1.3.3.24, from memory). On the diagonal when the
 * distribution suits.
 *
 * @example
 * quantilePoints([4, 2], { quantile: (p) => 10 * p }) // => [{ expected: 2.5, seen: 2 }, { expected: 7.5, seen: 4 }]
 */
export function quantilePoints(
  values: readonly number[],
  distribution: Pick<Distribution, 'quantile'>,
): QuantilePoint[] {
  return values
    .toSorted((a, b) => a - b)
    .map((seen, i) => ({ expected: distribution.quantile((i + 0.5) / values.length), seen }));
}
