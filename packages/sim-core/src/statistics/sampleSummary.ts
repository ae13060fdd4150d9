import { mean, quantileSorted, sampleStandardDeviation } from 'simple-statistics';

/** Mean, standard deviation and three quantiles of a sample. */
export interface SampleSummary {
  readonly mean: number;
  /** Divisor n - 1; NaN for fewer than two values. */
  readonly sd: number;
  readonly p05: number;
  readonly p50: number;
  readonly p95: number;
}

/**
 * Describes a sample by mean, standard deviation and the 5, 50 and 95 % quantiles (linear interpolation between order
 * statistics: type 7 of Hyndman & Fan 1996, The American Statistician 50, 361-365). Sorts the values in place.
 *
 * @returns NaN in every field when there are no values
 * @example
 * sampleSummary(Float64Array.of(4, 2, 1, 3, 5)).p50 // => 3
 */
export function sampleSummary(values: Float64Array): SampleSummary {
  if (values.length === 0) return { mean: NaN, sd: NaN, p05: NaN, p50: NaN, p95: NaN };
  // simple-statistics only indexes and reads the length, but its types ask for a plain array.
  const sorted = values.sort() as unknown as number[];
  return {
    mean: mean(sorted),
    sd: values.length > 1 ? sampleStandardDeviation(sorted) : NaN,
    p05: quantileSorted(sorted, 0.05),
    p50: quantileSorted(sorted, 0.5),
    p95: quantileSorted(sorted, 0.95),
  };
}
