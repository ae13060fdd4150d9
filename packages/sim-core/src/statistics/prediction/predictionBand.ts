import { requireParameter } from '../../errors/index.js';

/** Where one new value of a figure is to be expected, after what simulated shows had. */
export interface PredictionBand {
  /** Mean of the simulated values. */
  readonly mean: number;
  readonly low: number;
  readonly high: number;
  /** Chance, at least, that a new value of the same kind lies from `low` to `high`. */
  readonly confidence: number;
  readonly replications: number;
}

/**
 * The band in which a value that was logged should lie if it came about like the simulated ones: from the k-th smallest to
 * the k-th largest of N values. The new value has each rank among the N + 1 with the same chance, so that k = floor((N + 1)
 * (1 - confidence) / 2) keeps the promise whatever the distribution, ties included (Wilks 1941, Annals of Mathematical
 * Statistics 12, 91-96, from memory).
 *
 * @param values of simulated shows; those that are not finite had nothing to measure and are left out
 * @returns null when there are too few values for the promise
 * @throws ParameterError when `confidence` is no chance
 * @example
 * predictionBand(Array.from({ length: 39 }, (_, i) => i + 1), 0.95) // => { mean: 20, low: 1, high: 39, confidence: 0.95, replications: 39 }
 */
export function predictionBand(values: readonly number[], confidence: number): PredictionBand | null {
  requireParameter(
    confidence > 0 && confidence < 1,
    'predictionBand',
    'confidence',
    confidence,
    'above 0 and below 1',
  );
  const sorted = values.filter((value) => Number.isFinite(value)).toSorted((a, b) => a - b);
  const n = sorted.length;
  // A hair more, since (N + 1) x 0.025 may fall just short of a whole number.
  const k = Math.floor(((n + 1) * (1 - confidence)) / 2 + 1e-9);
  if (k < 1) return null;
  return {
    mean: sorted.reduce((sum, value) => sum + value, 0) / n,
    low: sorted[k - 1] ?? NaN,
    high: sorted[n - k] ?? NaN,
    confidence,
    replications: n,
  };
}
