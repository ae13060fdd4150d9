import type { RemedySpec } from '../model/spec/index.js';

/** What is read in a show instead of the usual measures: one module stops, beside the same show in which it does not. */
export interface StopReading {
  readonly kind: 'stop';
  /** Index of the module that stops. */
  readonly place: number;
  /** When, public seconds after the opening. */
  readonly atSeconds: number;
  readonly remedy: RemedySpec;
}

/** What is read in a show instead of the usual measures: how soon each basket would flood if its module stopped. */
export interface FloodReading {
  readonly kind: 'flood';
  /** The moments lie between these, public seconds after the opening. */
  readonly fromSeconds: number;
  readonly toSeconds: number;
  /** Moments in a show, one at a random point of each equal part of that time. */
  readonly moments: number;
}

/** Another way to read a show than by the measures. */
export type Reading = StopReading | FloodReading;
