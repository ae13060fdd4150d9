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
}

export interface BasketSpec {
  /** Balls it holds; Infinity when it cannot overflow. */
  readonly capacity: number;
  /** `fifo`: first in, first out; `mixed`: balls are drawn at random. */
  readonly order: 'fifo' | 'mixed';
  /** What happens to a ball that finds the basket full. */
  readonly whenFull: 'spill';
}

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

export interface CrewSpec {
  /** Minders on duty from each time on, by rising time; the first at 0. */
  readonly duty: readonly { readonly fromSeconds: number; readonly minders: number }[];
  /** Whose request is served next. */
  readonly rule: 'first_come' | 'fullest_first';
  readonly sweep?: SweepSpec;
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

export interface ShowSpec {
  /** Length of the public time, seconds. */
  readonly seconds: number;
  /** Seconds at the start that are simulated but not measured. */
  readonly warmUpSeconds: number;
  /** Clock time of the opening in seconds after midnight, for labels only. */
  readonly opensAtSeconds?: number;
}
