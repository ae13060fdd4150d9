import { type MeasurePlan, PLACES, type ReplicationResult } from '../model/index.js';
import { type Estimate, meanOverShows, Moments } from '../statistics/index.js';
import type { RunEstimates } from './runResult.js';

/** Adds up the time series over replications, slice by slice. */
export class SeriesSummary {
  private readonly ends: readonly number[];
  private readonly modules: number;
  private readonly throughput: readonly Moments[];
  private readonly spills: readonly Moments[];
  private readonly stops: readonly Moments[];
  private readonly busy: readonly Moments[];
  private readonly waitingJobs: readonly Moments[];
  private readonly stopped: readonly Moments[];
  private readonly heldUp: readonly Moments[];
  private readonly pulled: readonly Moments[];
  /** [slice * PLACES.length + place] */
  private readonly places: readonly Moments[];
  /** [slice * modules + module] */
  private readonly levels: readonly Moments[];

  constructor(plan: MeasurePlan, modules: number) {
    const slices = plan.sliceEnds.length;
    const many = (count: number): Moments[] => Array.from({ length: count }, () => new Moments());
    this.ends = plan.sliceEnds;
    this.modules = modules;
    this.throughput = many(slices);
    this.spills = many(slices);
    this.stops = many(slices);
    this.busy = many(slices);
    this.waitingJobs = many(slices);
    this.stopped = many(slices);
    this.heldUp = many(slices);
    this.pulled = many(slices);
    this.places = many(slices * PLACES.length);
    this.levels = many(slices * modules);
  }

  add({ series }: ReplicationResult): void {
    const seconds = this.ends.map((end, k) => end - (this.ends[k - 1] ?? 0));
    addAll(this.throughput, series.passes, (count, k) => count / (seconds[k] ?? NaN));
    addAll(this.spills, series.spills, (count, k) => (3600 * count) / (seconds[k] ?? NaN));
    addAll(this.stops, series.stops, (count, k) => (3600 * count) / (seconds[k] ?? NaN));
    addAll(this.busy, series.busyMinders);
    addAll(this.waitingJobs, series.waitingJobs);
    addAll(this.stopped, series.stoppedModules);
    addAll(this.heldUp, series.heldUpModules);
    addAll(this.pulled, series.pulledModules);
    addAll(this.places, series.places);
    addAll(this.levels, series.levels);
  }

  /** @param certain that every show is the same, by the scenario */
  estimates(confidence: number, certain: boolean): RunEstimates['series'] {
    const list = (moments: readonly Moments[]): Estimate[] =>
      moments.map((one) => meanOverShows(one, confidence, certain, { min: 0 }));
    const place = (name: (typeof PLACES)[number]): Estimate[] =>
      list(this.places.filter((_, i) => PLACES[i % PLACES.length] === name));
    return {
      slice_ends_s: this.ends,
      throughput_bps: list(this.throughput),
      spills_per_hour: list(this.spills),
      stops_per_hour: list(this.stops),
      busy_minders: list(this.busy),
      jobs_waiting: list(this.waitingJobs),
      stopped_modules: list(this.stopped),
      held_up_modules: list(this.heldUp),
      pulled_modules: list(this.pulled),
      balls_by_place: {
        baskets: place('baskets'),
        mechanisms: place('mechanisms'),
        run_outs: place('run_outs'),
        chutes: place('chutes'),
        floor: place('floor'),
        box: place('box'),
        lost: place('lost'),
      },
      level_mean: Array.from({ length: this.modules }, (_, m) =>
        list(this.levels.filter((__, i) => i % this.modules === m)),
      ),
    };
  }
}

function addAll(
  moments: readonly Moments[],
  values: Float64Array,
  convert: (value: number, k: number) => number = (value) => value,
): void {
  for (const [k, one] of moments.entries()) one.add(convert(values[k] ?? NaN, k));
}
