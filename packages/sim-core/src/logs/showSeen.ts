/** The lap of a marked ball. */
export interface LapSeen {
  /** When it came round, seconds on the axis of the log. */
  readonly at: number;
  readonly seconds: number;
  /** Which ball, as written under `cause`. */
  readonly ball?: string;
}

/** Minders on duty from a moment on. */
export interface MindersSeen {
  readonly at: number;
  readonly minders: number;
}
