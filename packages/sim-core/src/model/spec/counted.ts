/**
 * What the figures of one module were taken from. It stands beside the spec and changes no result of a show by itself:
 * questions draw the parameters of each replication from what so few counts leave open.
 */
export interface ModuleCounted {
  readonly module: string;
  /** How many cycle times are behind the distribution of the cycle. */
  readonly cycles?: number;
  /** Balls the mechanism reached for, and how many of them it caught. */
  readonly caught?: { readonly of: number; readonly balls: number };
  /** Balls released, and how many of them fell. */
  readonly leaked?: { readonly of: number; readonly balls: number };
  readonly stops: readonly CauseCounted[];
}

/** What is behind one cause of stopping. */
export interface CauseCounted {
  /** Id of the cause. */
  readonly cause: string;
  readonly stops: number;
  /** What the stops were counted over: seconds, cycles or balls, as the trigger counts. */
  readonly over: number;
  /** The same above the crowded share of its basket, where that was told apart; then the two above are below it. */
  readonly crowded?: { readonly stops: number; readonly over: number };
  /** What is known of its kind before: so many stops over so much more (a gamma prior). Jeffreys' prior when absent. */
  readonly prior?: { readonly stops: number; readonly over: number };
  /** How many clear times are behind the distribution of the remedy. */
  readonly clears: number;
}
