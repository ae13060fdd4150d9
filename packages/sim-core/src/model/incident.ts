/** What can happen at the table that is worth a line in a log. */
export type IncidentKind =
  /** A stop begins; `cause` says which, `balls` how many fell out of the mechanism. */
  | 'stops'
  /** A stop that needs the crew is noticed. */
  | 'noticed'
  /** A minder sets out to clear a stop, to swap, to put back, to set a lever, to sweep or top up (`what`). */
  | 'sets_out'
  /** A minder has cleared a stop; `seconds` is how long it lasted. */
  | 'cleared'
  /** A stop has freed itself; `seconds` is how long it lasted. */
  | 'freed_itself'
  /** A module is to be pulled. */
  | 'wanted_out'
  /** A module has been taken out; `what` has gone in. */
  | 'pulled'
  /** A module is ready again on the side table. */
  | 'mended'
  /** A module is back in its place; `what` has been taken out. */
  | 'put_back'
  /** A lever now sends balls back, or forward again. */
  | 'lever_back'
  | 'lever_forward'
  /** A minder has come to a lever and finds that it stands as it should. */
  | 'lever_left'
  /** `balls` find no room at one moment and fall. */
  | 'spills'
  /** `balls` of one batch leak to the floor. */
  | 'leaks'
  /** The floor has been swept: `balls` are back in the basket of the module, perhaps none. */
  | 'swept'
  /** `balls` have come from the box into the basket of the module, perhaps none. */
  | 'topped_up'
  /** So many minders (`balls` does not apply; `what` says the number) are on duty from now on. */
  | 'duty'
  /** Nothing can move any more; `what` names the modules that are held up. */
  | 'locked';

/** One line of the log of a replication. */
export interface Incident {
  /** Public seconds after the first opening. */
  readonly time: number;
  readonly kind: IncidentKind;
  /** Index of the place in the loop; -1 when it belongs to none. */
  readonly module: number;
  /** Id of the cause of the stop it is about. */
  readonly cause?: string;
  readonly balls?: number;
  readonly seconds?: number;
  /** Number of the minder, from 1. */
  readonly minder?: number;
  readonly what?: string;
}
