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

/** What is kept of a show behind the usual measures: how often each module stopped, in loop order. */
export interface StopsReading {
  readonly kind: 'stops';
}

/** What is kept of a show behind the usual measures: the own stops of one module, and the hours it stood in the loop. */
export interface WatchReading {
  readonly kind: 'watch';
  readonly module: string;
}

/** What is read in a show instead of the usual measures: what a log of a show tells. */
export interface LoggedReading {
  readonly kind: 'logged';
  /** When somebody watched, public seconds after the opening, in rising order. */
  readonly stretches: readonly { readonly from: number; readonly to: number }[];
  /** When the counter was read, public seconds after the opening, rising. */
  readonly counterAt: readonly number[];
  /** Modules, by index, of which only what they did in stretches of their own counts. @default none */
  readonly inline?: readonly {
    readonly module: number;
    readonly stretches: readonly { readonly from: number; readonly to: number }[];
  }[];
}

/**
 * What is read instead of the usual measures: how often watched baskets run over, by multilevel splitting. The show is
 * split when one of them has become so full.
 */
export interface SplitReading {
  readonly kind: 'split';
  /** Indexes of the modules whose baskets are watched. */
  readonly places: readonly number[];
  /** Shares of its capacity, rising; a show that reaches one goes on in so many ways. */
  readonly levels: readonly { readonly share: number; readonly copies: number }[];
}

/** Another way to read a show than by the measures alone. */
export type Reading = StopReading | FloodReading | LoggedReading | StopsReading | WatchReading | SplitReading;
