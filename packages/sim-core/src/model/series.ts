import type { MeasurePlan } from './measurePlan.js';

/** The places a ball can be in, in the order of {@link Series.places}. */
export const PLACES = ['baskets', 'mechanisms', 'run_outs', 'chutes', 'floor', 'box', 'lost'] as const;

/**
 * Time series of one replication over the slices of the measuring plan; the warm-up is part of it.
 */
export class Series {
  /** Balls released at the counter, balls spilled, stops begun: counts in each slice. */
  readonly passes: Float64Array;
  readonly spills: Float64Array;
  readonly stops: Float64Array;
  /** Averages over each slice. */
  readonly busyMinders: Float64Array;
  readonly waitingJobs: Float64Array;
  readonly stoppedModules: Float64Array;
  readonly heldUpModules: Float64Array;
  readonly pulledModules: Float64Array;
  /** Balls in each place at the end of each slice: [slice * PLACES.length + place]. */
  readonly places: Float64Array;
  /** Average level of each basket over each slice: [slice * modules + module]. */
  readonly levels: Float64Array;

  private readonly modules: number;
  private readonly ends: readonly number[];
  private slice = 0;

  constructor(plan: MeasurePlan, modules: number) {
    const slices = plan.sliceEnds.length;
    this.modules = modules;
    this.ends = plan.sliceEnds;
    this.passes = new Float64Array(slices);
    this.spills = new Float64Array(slices);
    this.stops = new Float64Array(slices);
    this.busyMinders = new Float64Array(slices);
    this.waitingJobs = new Float64Array(slices);
    this.stoppedModules = new Float64Array(slices);
    this.heldUpModules = new Float64Array(slices);
    this.pulledModules = new Float64Array(slices);
    this.places = new Float64Array(slices * PLACES.length);
    this.levels = new Float64Array(slices * modules);
  }

  /** When the open slice ends; Infinity when all are closed. */
  get nextEnd(): number {
    return this.ends[this.slice] ?? Infinity;
  }

  countPass(): void {
    this.passes[this.slice]++;
  }

  countSpill(): void {
    this.spills[this.slice]++;
  }

  countStop(): void {
    this.stops[this.slice]++;
  }

  /** Where the open slice of basket m stands in {@link levels}. */
  cellOf(m: number): number {
    return this.slice * this.modules + m;
  }

  /** Adds time spent at a level; the slice is divided by its length when it closes. */
  addLevel(m: number, levelSeconds: number): void {
    this.levels[this.slice * this.modules + m] += levelSeconds;
  }

  addCrew(busySeconds: number, waitingJobSeconds: number, stoppedSeconds: number): void {
    this.busyMinders[this.slice] += busySeconds;
    this.waitingJobs[this.slice] += waitingJobSeconds;
    this.stoppedModules[this.slice] += stoppedSeconds;
  }

  addStates(heldUpSeconds: number, pulledSeconds: number): void {
    this.heldUpModules[this.slice] += heldUpSeconds;
    this.pulledModules[this.slice] += pulledSeconds;
  }

  /** Ends the open slice: integrals become averages, and the balls in each place are noted. */
  close(places: readonly number[]): void {
    const { slice, modules } = this;
    const seconds = this.ends[slice] - (slice === 0 ? 0 : this.ends[slice - 1]);
    this.busyMinders[slice] /= seconds;
    this.waitingJobs[slice] /= seconds;
    this.stoppedModules[slice] /= seconds;
    this.heldUpModules[slice] /= seconds;
    this.pulledModules[slice] /= seconds;
    for (let m = 0; m < modules; m++) this.levels[slice * modules + m] /= seconds;
    this.places.set(places, slice * PLACES.length);
    this.slice++;
  }
}
