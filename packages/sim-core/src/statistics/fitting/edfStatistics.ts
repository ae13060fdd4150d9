/**
 * Anderson-Darling statistic A^2 of sorted chances F(x): -n - (1/n) sum (2 i - 1) (ln F(x_i) + ln(1 - F(x_(n+1-i))))
 * (Anderson & Darling 1954, JASA 49, 765-769; NIST/SEMATECH e-Handbook 1.3.5.14).
 *
 * @param chances the distribution function at the values in rising order
 * @example
 * andersonDarling([0.5]).toFixed(6) // => (2 * Math.LN2 - 1).toFixed(6)
 */
export function andersonDarling(chances: ArrayLike<number>): number {
  const n = chances.length;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const low = within(chances[i] ?? NaN);
    const high = within(chances[n - 1 - i] ?? NaN);
    sum += (2 * i + 1) * (Math.log(low) + Math.log1p(-high));
  }
  return -n - sum / n;
}

/**
 * Kolmogorov-Smirnov statistic D of sorted chances F(x): the greatest distance to the steps of the values' own
 * distribution function.
 *
 * @param chances the distribution function at the values in rising order
 * @example
 * kolmogorovSmirnov([0.1, 0.7]) // => 0.4
 */
export function kolmogorovSmirnov(chances: ArrayLike<number>): number {
  const n = chances.length;
  let most = 0;
  for (let i = 0; i < n; i++) {
    const chance = chances[i] ?? NaN;
    most = Math.max(most, (i + 1) / n - chance, chance - i / n);
  }
  return most;
}

/** Away from 0 and 1, where the logarithm would be infinite. */
function within(chance: number): number {
  return Math.min(1 - 1e-15, Math.max(1e-300, chance));
}
