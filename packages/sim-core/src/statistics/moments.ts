/**
 * Count, mean and variance of a series of values, in one pass and constant memory. Values that are not finite are left
 * out: they mean that a replication had nothing to measure.
 *
 * Running mean and squared deviations (Welford 1962, Technometrics 4, 419-420, from memory).
 *
 * @example
 * const moments = new Moments();
 * for (const x of [2, 4, 9, NaN]) moments.add(x);
 * [moments.count, moments.mean, moments.variance] // => [3, 5, 13]
 */
export class Moments {
  count = 0;
  /** NaN while there are no values. */
  mean: number = NaN;
  /** NaN as well, so that it is held as a fraction from the beginning; see EventQueue.now. */
  private squares: number = NaN;

  /** What has been added up elsewhere: count, mean, and squared deviations from the mean. */
  static of(count: number, mean: number, squares: number): Moments {
    const moments = new Moments();
    moments.count = count;
    moments.mean = mean;
    moments.squares = squares;
    return moments;
  }

  add(value: number): void {
    if (!Number.isFinite(value)) return;
    this.count++;
    if (this.count === 1) {
      this.mean = value;
      this.squares = 0;
      return;
    }
    const delta = value - this.mean;
    this.mean += delta / this.count;
    this.squares += delta * (value - this.mean);
  }

  /** Divisor count - 1; NaN for fewer than two values. */
  get variance(): number {
    return this.count > 1 ? this.squares / (this.count - 1) : NaN;
  }
}

/**
 * The moments of a list of values.
 *
 * @example
 * momentsOf([2, 4, 9]).mean // => 5
 */
export function momentsOf(values: Iterable<number>): Moments {
  const moments = new Moments();
  for (const value of values) moments.add(value);
  return moments;
}
