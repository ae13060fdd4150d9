/**
 * An estimate with its interval: what every figure of a result looks like.
 *
 * `low` and `high` are null when there is no interval (fewer than two replications), and all three are null when there
 * was nothing to measure.
 */
export interface Estimate {
  readonly mean: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** Chance that such an interval holds the true value, such as 0.95. */
  readonly confidence: number;
  /** Replications that the figure rests on. */
  readonly replications: number;
}

/** The range that a quantity can lie in; intervals are cut off there. */
export interface Bounds {
  /** @default -Infinity */
  readonly min?: number;
  /** @default Infinity */
  readonly max?: number;
}
