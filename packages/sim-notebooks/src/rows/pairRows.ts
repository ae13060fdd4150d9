/** One show met by two systems with the same luck. */
export interface PairRow {
  /** Number of the show, from 0. */
  readonly show: number;
  /** After minus before, in the unit of the measure. */
  readonly difference: number;
}

/** The differences of paired shows; those in which either has nothing to measure are left out. */
export function pairRows(before: readonly number[], after: readonly number[]): PairRow[] {
  return before
    .map((value, show) => ({ show, difference: (after[show] ?? NaN) - value }))
    .filter(({ difference }) => Number.isFinite(difference));
}
