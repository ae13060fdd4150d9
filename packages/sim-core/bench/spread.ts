/** The middle of some measurements and how far they lie apart, as text: median (lowest to highest). */
export function spread(values: readonly number[], digits: number): string {
  const sorted = values.toSorted((a, b) => a - b);
  const text = (value: number | undefined): string => (value ?? NaN).toFixed(digits);
  return `${text(median(values))} (${text(sorted[0])} to ${text(sorted.at(-1))})`;
}

/** NaN when there are no values. */
export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const upper = Math.floor(sorted.length / 2);
  const lower = Math.ceil(sorted.length / 2) - 1;
  return ((sorted[lower] ?? NaN) + (sorted[upper] ?? NaN)) / 2;
}
