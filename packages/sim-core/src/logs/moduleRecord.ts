/** What a log says of one module, cleaned: all times in seconds on one axis that begins with the log. */
export interface ModuleRecord {
  readonly module: string;
  readonly builder?: string;
  /** Modules of one design are alike in kind; several clubs may have built one. */
  readonly design?: string;
  /** Alone on a bench with balls always waiting, or in the loop of a show. */
  readonly where: 'bench' | 'show';
  /** When somebody watched it and it was on the table, in rising order without overlap: breaks and pulled times left out. */
  readonly watched: readonly Stretch[];
  /** Batches seen to come out, by rising time; empty where nobody counted. */
  readonly batches: readonly BatchSeen[];
  /** By rising time, without overlap. */
  readonly stops: readonly StopSeen[];
  /** Balls that fell from its basket, as far as they were counted. */
  readonly spills: readonly BallsSeen[];
}

/** A stretch of time, seconds. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** A number of balls at a moment. */
export interface BallsSeen {
  readonly at: number;
  readonly balls: number;
}

/** A batch that came out of the mechanism; 0 balls where a cycle was seen that brought none. */
export interface BatchSeen extends BallsSeen {
  /** How full the basket stood, share of its capacity, where that was written down. */
  readonly level?: number;
}

/** A stop that was seen. */
export interface StopSeen {
  /** As written; `stop` where no cause was. */
  readonly cause: string;
  readonly from: number;
  /**
   * When it ran again; null when the log, or the watching, ended before (a break, the end of the day, or pulled). Such a stop
   * lasted at least until the end of the stretch of watched time that it began in, and no later stretch belongs to it.
   */
  readonly cleared: number | null;
  /** How full the basket stood when it stopped, share of its capacity, where that was written down. */
  readonly level?: number;
  /** Balls that fell from the mechanism, where they were counted. */
  readonly dropped?: number;
}
