import type { Doing } from '../model/loopView.js';

/**
 * What can be seen at a place of the loop: what stands there runs, goes without balls, is held up or stopped; or the module
 * itself is pulled and something else, which is not stopped, stands in its place.
 */
export type PlaceState = Doing | 'pulled';

/** A stretch of time in which one thing could be seen at one place. */
export interface Episode {
  /** Index of the place in the loop. */
  readonly module: number;
  readonly state: PlaceState;
  /** Public seconds. */
  readonly from: number;
  readonly to: number;
}
