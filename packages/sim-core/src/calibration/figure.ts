/** One figure taken from a log, with what is open about it. */
export interface Figure {
  /** Null when nothing was seen that tells it. */
  readonly value: number | null;
  /** Limits at the confidence; null when there are none (one value has no spread). */
  readonly low: number | null;
  readonly high: number | null;
  readonly confidence: number;
  /** How many things were counted or measured. */
  readonly n: number;
}
