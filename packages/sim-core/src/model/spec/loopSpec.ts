import type { DistributionSpec } from '../../distributions/index.js';

/**
 * Everything the simulator needs to know about one loop or chain, as plain data: seconds, balls, shares from 0 to 1.
 *
 * Scenario files are one way to make it; a program can also write it down directly. It is sent to worker threads as is.
 */
export interface LoopSpec {
  readonly name: string;
  /** The modules in the order in which balls pass them; each hands its balls to the next. */
  readonly modules: readonly ModuleSpec[];
  /** Where balls come from: a charge that goes round a loop, or a feed at the head of an open chain. */
  readonly supply: ChargeSpec | FeedSpec;
  /** Index in `modules` of the counter module, where laps and throughput are counted. */
  readonly counter: number;
  readonly crew: CrewSpec;
  readonly show: ShowSpec;
  /** Modules kept on the side table to take the place of a pulled one; none when absent. */
  readonly spares?: readonly ModuleSpec[];
}

/** A closed loop: the last module hands its balls to the first. */
export interface ChargeSpec {
  readonly kind: 'charge';
  /** Balls in each module's basket at the start, one number for each module. */
  readonly placed: readonly number[];
}

/** An open chain: balls come from a feed and end in a tray after the last module. */
export interface FeedSpec {
  readonly kind: 'feed';
  /** Balls that come together. */
  readonly balls: number;
  /** Seconds from one arrival to the next. */
  readonly every: DistributionSpec;
  /** Seconds from the opening to the first arrival; drawn from `every` when absent. */
  readonly first?: number;
}

/** One module: a basket, a mechanism that lifts balls out of it, a run-out that carries them to the next basket. */
export interface ModuleSpec {
  /** Unique; names the module's random streams, so its luck stays with it wherever it stands. */
  readonly id: string;
  readonly title?: string;
  readonly builder?: string;
  readonly design?: string;
  readonly basket: BasketSpec;
  readonly drive: DriveSpec;
  /** Most balls picked in one cycle, from 1. */
  readonly batch: number;
  /** Chance that a ball the mechanism reaches for is caught, above 0 and at most 1. */
  readonly catch: number;
  /** Seconds of one cycle. */
  readonly cycle: DistributionSpec;
  /** Seconds a released batch needs to the next basket. */
  readonly travel: DistributionSpec;
  /** Chance that a released ball falls to the floor, 0 to 1. */
  readonly leak: number;
  readonly stops: readonly StopCauseSpec[];
  /** When it is pulled, and what takes its place; never pulled when absent. */
  readonly pull?: PullSpec;
  /** A lever that sends its output back into its own basket; none when absent. */
  readonly lever?: LeverSpec;
}

export interface BasketSpec {
  /**
   * Balls it holds; Infinity when it cannot overflow. 0 is no basket at all: what comes goes straight into a mechanism
   * that waits (demand drive, start at 1), and finds no room otherwise.
   */
  readonly capacity: number;
  /** `fifo`: first in, first out; `mixed`: balls are drawn at random. */
  readonly order: 'fifo' | 'mixed';
  /** What happens to a ball that finds the basket full. It belongs to the place: a spare's is not used. */
  readonly whenFull: WhenFullSpec;
}

export type WhenFullSpec =
  /** It falls to the floor. */
  | { readonly kind: 'spill' }
  /** It waits on the run-out that leads here, which holds so many balls, travelling and waiting. */
  | { readonly kind: 'back_up'; readonly holds: number }
  /** It goes down a chute into the basket of another module (an index in `modules`), after the chute time. */
  | { readonly kind: 'return'; readonly to: number; readonly time: DistributionSpec };

/** When a cycle starts: without pause whether balls wait or not, or as soon as `startAt` balls wait. */
export type DriveSpec =
  { readonly kind: 'continuous' } | { readonly kind: 'demand'; readonly startAt: number };

/** One reason why a module stops. */
export interface StopCauseSpec {
  /** Unique within the module; names the cause's random streams. */
  readonly id: string;
  readonly trigger: StopTriggerSpec;
  /** Multiplies the trigger while the basket stands above this share of its capacity. */
  readonly crowded?: { readonly above: number; readonly times: number };
  /** Chance that a ball in the mechanism falls to the floor when the stop begins. */
  readonly drops: number;
  readonly remedy: RemedySpec;
}

export type StopTriggerSpec =
  /** Drawn at each pick; the stop begins at a uniform random point of that cycle. */
  | { readonly kind: 'per_cycle'; readonly probability: number }
  /** The same for each ball picked. */
  | { readonly kind: 'per_ball'; readonly probability: number }
  /** Seconds of running (in a cycle: not waiting, not stopped) until the next stop. */
  | { readonly kind: 'running'; readonly time: DistributionSpec }
  /** Seconds of public time until the next stop, running or waiting, but not while it is stopped or pulled. */
  | { readonly kind: 'clock'; readonly time: DistributionSpec }
  /** At these seconds after the opening, running or not; skipped while another stop lasts. */
  | { readonly kind: 'at'; readonly times: readonly number[] };

export type RemedySpec =
  | { readonly kind: 'itself'; readonly time: DistributionSpec }
  | {
      readonly kind: 'crew';
      /** Seconds until the stop is noticed and a minder asked for. */
      readonly notice: DistributionSpec;
      /** Seconds the minder needs to get there. */
      readonly walk: DistributionSpec;
      /** Seconds of work once there. */
      readonly clear: DistributionSpec;
    };

/** When a module is pulled off the loop, what takes its place, and whether it comes back. At least one condition. */
export interface PullSpec {
  /** Pulled at a stop that makes more than so many in the last so many seconds, itself included. */
  readonly stops?: { readonly moreThan: number; readonly withinSeconds: number };
  /** Pulled when a stop lasts longer than this. */
  readonly outlastsSeconds?: number;
  /** Indexes in `spares`, best first; the first that is free goes in. */
  readonly spares: readonly number[];
  /** With no spare free: a plain chute with this travel time; without, the module stays where it is. */
  readonly chute?: DistributionSpec;
  /** Seconds a minder needs to take one out and put the other in, the way there included. */
  readonly swap: DistributionSpec;
  /** Seconds of mending on the side table, by the clock, closed hours included; when absent it does not come back. */
  readonly mend?: DistributionSpec;
}

/** A recirculation lever: while a watched module is stopped, what this one releases goes back into its own basket. */
export interface LeverSpec {
  /** Indexes in `modules`. */
  readonly watches: readonly number[];
  /** Seconds a minder needs to set it, the way there included; a constant 0 needs no minder. */
  readonly takes: DistributionSpec;
  /** Seconds a released batch needs back to the basket. */
  readonly time: DistributionSpec;
}

export interface CrewSpec {
  /** Minders on duty from each time on, by rising time; the first at 0. */
  readonly duty: readonly { readonly fromSeconds: number; readonly minders: number }[];
  /** Whose request is served next. */
  readonly rule: 'first_come' | 'fullest_first';
  readonly sweep?: SweepSpec;
  /** Balls from the box when there are too few; for loops. */
  readonly topUp?: TopUpSpec;
}

/** Every so often the balls on the floor are picked up and put into one basket as far as there is room. */
export interface SweepSpec {
  readonly everySeconds: number;
  /** Index in `modules` of the basket they are put into. */
  readonly into: number;
  /** Seconds a minder is busy with it; a constant 0 needs no minder. */
  readonly takes: DistributionSpec;
  /** Share of the fallen balls that is never found. */
  readonly lost: number;
}

/** When fewer than `below` balls are on the path, a minder brings them up to `upTo` from the box. */
export interface TopUpSpec {
  readonly below: number;
  readonly upTo: number;
  /** Balls in the box at the start. */
  readonly box: number;
  /** Index in `modules` of the basket they are put into. */
  readonly into: number;
  /** Seconds a minder is busy with it; a constant 0 needs no minder. */
  readonly takes: DistributionSpec;
}

/**
 * The show. The clock of the simulation counts public time only: between sessions motors stand, balls stay where they
 * are, minders rest and clocks of stops stand still. All times in a spec are public seconds after the first opening.
 */
export interface ShowSpec {
  /** Public time of all sessions, seconds. */
  readonly seconds: number;
  /** Seconds at the start that are simulated but not measured. */
  readonly warmUpSeconds: number;
  /** Clock time of the first opening in seconds after midnight, for labels only. */
  readonly opensAtSeconds?: number;
  /** Sessions in order; one that lasts for the whole show when absent. */
  readonly sessions?: readonly SessionSpec[];
}

/** A time in which the public is there. */
export interface SessionSpec {
  /** Its beginning: public seconds after the first opening, 0 for the first. */
  readonly fromSeconds: number;
  /** Seconds by the clock since the first opening. */
  readonly clockSeconds: number;
}
