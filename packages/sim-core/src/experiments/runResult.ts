import type { PLACES } from '../model/index.js';
import type { Estimate } from '../statistics/index.js';

/** Spills (balls per hour) by what was going on at the basket that overflowed. */
export interface SpillsByCause {
  /** Its own module was stopped. */
  readonly module_stopped: Estimate;
  /** It was still full from a stop that had been cleared: until it is next at or below half. */
  readonly backlog_of_stop: Estimate;
  /** Neither: more came than the module could take. */
  readonly inflow: Estimate;
}

/** Chance of at least one spill. */
export interface OverflowRisk {
  /** In one public hour; null when the show has no full hour. */
  readonly hour: Estimate | null;
  /** In the whole show. */
  readonly show: Estimate;
}

/** Estimates of one module. Balls unless the name says otherwise. */
export interface ModuleEstimates {
  readonly id: string;
  readonly title?: string;
  readonly builder?: string;
  readonly design?: string;
  /** Continuous drive: share of cycles that picked nothing. Demand drive: share of unstopped time spent waiting. */
  readonly starved_share: Estimate;
  readonly stopped_share: Estimate;
  /** Share of time its mechanism, not stopped, waits at the end of a cycle for room; 0 where the next place takes all. */
  readonly held_up_share: Estimate;
  /** Share of time out of the loop. */
  readonly pulled_share: Estimate;
  readonly pulls_per_show: Estimate;
  /** Balls that go down the overflow chute of its place. */
  readonly returned_per_hour: Estimate;
  /** Balls that its lever sends back into its own basket. */
  readonly recirculated_per_hour: Estimate;
  readonly level_mean: Estimate;
  readonly level_p50: Estimate;
  readonly level_p95: Estimate;
  readonly level_peak: Estimate;
  readonly throughput_bps: Estimate;
  readonly spills_per_hour: Estimate;
  readonly spills_by_cause_per_hour: SpillsByCause;
  readonly leaks_per_hour: Estimate;
  readonly drops_per_hour: Estimate;
  readonly stops_per_hour: Estimate;
  /** Stops over the hours in which it stands in the loop. */
  readonly stops_per_hour_in_loop: Estimate;
  readonly overflow_risk: OverflowRisk;
}

/** Estimates of one spare, in whatever place it stands. */
export interface SpareEstimates {
  readonly id: string;
  readonly title?: string;
  readonly builder?: string;
  /** Share of time in the loop. */
  readonly in_use_share: Estimate;
  /** Stops over all public hours. */
  readonly stops_per_hour: Estimate;
  /** Stops over the hours in which it stands in the loop; nothing to measure when it never does. */
  readonly stops_per_hour_in_loop: Estimate;
  /** Share of all public time, not of the time in use. */
  readonly stopped_share: Estimate;
}

/** Moments at which nothing can move any more: every mechanism that could waits for another. */
export interface LockEstimates {
  /** Chance that a show locks. */
  readonly show: Estimate;
  /** Public time from the opening to the first such moment, over the shows that lock. */
  readonly time_s: Estimate;
  /** Modules held up at that moment, in the first show that locks; empty when none does. */
  readonly modules: readonly string[];
}

/** Everything estimated in a run. */
export interface RunEstimates {
  /** At the counter module. */
  readonly throughput_bps: Estimate;
  /** Of unbroken laps: mean, standard deviation and quantiles within a show, averaged over shows. */
  readonly loop_time_s: {
    readonly mean: Estimate;
    readonly sd: Estimate;
    readonly p05: Estimate;
    readonly p50: Estimate;
    readonly p95: Estimate;
  };
  /** Share of laps in which the ball lay on the floor. */
  readonly broken_lap_share: Estimate;
  /** Balls in baskets, mechanisms and run-outs, average over time. */
  readonly balls_on_path: Estimate;
  readonly spills_per_hour: Estimate;
  readonly spills_by_cause_per_hour: SpillsByCause;
  readonly leaks_per_hour: Estimate;
  readonly drops_per_hour: Estimate;
  readonly lost_per_hour: Estimate;
  /** Balls down overflow chutes, and balls that levers send back. */
  readonly returned_per_hour: Estimate;
  readonly recirculated_per_hour: Estimate;
  readonly stops_per_hour: Estimate;
  readonly overflow_risk: OverflowRisk;
  /** Public time from the opening to the first spill, over the shows that had one. */
  readonly first_spill_s: Estimate;
  readonly crew: {
    readonly busy_share: Estimate;
    readonly jobs_waiting: Estimate;
    /** From a stop to its clearing by the crew; stops still open at closing time are not in it. */
    readonly time_to_clear_s: Estimate;
    /** The longest stop of a show that needs the crew, cleared or still open at closing time. */
    readonly longest_stop_s: Estimate;
    /** Stops that need the crew and are still open at closing time. */
    readonly stops_open_at_closing: Estimate;
  };
  /** Times that modules are taken out of the loop. */
  readonly pulls_per_show: Estimate;
  /** Balls from the box. */
  readonly balls_topped_up_per_show: Estimate;
  /** Balls left in the box at closing time, and the chance that there are none; null when there is no box. */
  readonly box_left_balls: Estimate | null;
  readonly box_empty_risk: Estimate | null;
  /** Share of full public minutes in which a ball passes the counter. */
  readonly moving_share: Estimate;
  readonly locked: LockEstimates;
  /** (balls on path - throughput x time on path per lap) / balls on path; near 0 when the books are right. */
  readonly little_residual: Estimate;
  readonly modules: readonly ModuleEstimates[];
  readonly spares: readonly SpareEstimates[];
  /** Unbroken laps of all shows by length; the last bar also holds everything longer. */
  readonly loop_time_histogram: { readonly bin_s: number; readonly laps: readonly number[] };
  /** Over slices of time, warm-up included. */
  readonly series: {
    readonly slice_ends_s: readonly number[];
    readonly throughput_bps: readonly Estimate[];
    readonly spills_per_hour: readonly Estimate[];
    readonly stops_per_hour: readonly Estimate[];
    readonly busy_minders: readonly Estimate[];
    readonly jobs_waiting: readonly Estimate[];
    readonly stopped_modules: readonly Estimate[];
    readonly held_up_modules: readonly Estimate[];
    /** Modules out of the loop. */
    readonly pulled_modules: readonly Estimate[];
    /** At the end of each slice. */
    readonly balls_by_place: Readonly<Record<(typeof PLACES)[number], readonly Estimate[]>>;
    /** Average level over each slice: a list for each module. */
    readonly level_mean: readonly (readonly Estimate[])[];
  };
}

/** The result of a run, as it is written with --json. */
export interface RunResult extends RunEstimates {
  readonly kind: 'lapwright-run';
  /** Version of this format. */
  readonly format: 1;
  /** Version of the program. */
  readonly version: string;
  readonly scenario: {
    readonly name: string;
    /** SHA-256 of the bytes of the scenario file. */
    readonly sha256: string;
    /** loop: closed; chain: open, with a feed and a tray. */
    readonly shape: 'loop' | 'chain';
    /** Balls put in at the start (0 for a chain). */
    readonly charge_balls: number;
    /** Clock time of the opening, seconds after midnight; null when the scenario does not say. */
    readonly opens_s: number | null;
    /** Sessions in order, one at least: public time and time by the clock from the first opening to their beginning. */
    readonly sessions: readonly { readonly from_s: number; readonly clock_s: number }[];
  };
  readonly seed: number;
  readonly generator: string;
  readonly replications: number;
  /** Replications asked for. */
  readonly replications_asked: number;
  /** True when the run was stopped before all replications asked for were done. */
  readonly partial: boolean;
  /** Public time of the show, all sessions together. */
  readonly horizon_s: number;
  readonly warm_up_s: number;
}
