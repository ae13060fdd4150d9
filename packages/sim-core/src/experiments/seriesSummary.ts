import { type MeasurePlan, PLACES, type ReplicationResult } from '../model/index.js';
import { ColumnMoments, type Estimate, meanOverShows } from '../statistics/index.js';
import type { RunEstimates } from './runResult.js';

/** Adds up the time series over replications, slice by slice. */
export class SeriesSummary {
  private readonly ends: readonly number[];
  private readonly slices: number;
  /** Length of each slice. */
  private readonly seconds: Float64Array;
  private readonly modules: number;
  private readonly throughput: ColumnMoments;
  private readonly spills: ColumnMoments;
  private readonly stops: ColumnMoments;
  private readonly busy: ColumnMoments;
  private readonly waitingJobs: ColumnMoments;
  private readonly stopped: ColumnMoments;
  private readonly heldUp: ColumnMoments;
  private readonly pulled: ColumnMoments;
  /** [slice * PLACES.length + place] */
  private readonly places: ColumnMoments;
  /** [slice * modules + module] */
  private readonly levels: ColumnMoments;

  constructor(plan: MeasurePlan, modules: number) {
    const slices = plan.sliceEnds.length;
    this.ends = plan.sliceEnds;
    this.seconds = Float64Array.from(this.ends, (end, k) => end - (this.ends[k - 1] ?? 0));
    this.slices = slices;
    this.modules = modules;
    this.throughput = new ColumnMoments(slices);
    this.spills = new ColumnMoments(slices);
    this.stops = new ColumnMoments(slices);
    this.busy = new ColumnMoments(slices);
    this.waitingJobs = new ColumnMoments(slices);
    this.stopped = new ColumnMoments(slices);
    this.heldUp = new ColumnMoments(slices);
    this.pulled = new ColumnMoments(slices);
    this.places = new ColumnMoments(slices * PLACES.length);
    this.levels = new ColumnMoments(slices * modules);
  }

  add({ series }: ReplicationResult): void {
    const perSecond = (count: number, k: number): number => count / (this.seconds[k] ?? NaN);
    const perHour = (count: number, k: number): number => (3600 * count) / (this.seconds[k] ?? NaN);
    this.throughput.add(series.passes.map(perSecond));
    this.spills.add(series.spills.map(perHour));
    this.stops.add(series.stops.map(perHour));
    this.busy.add(series.busyMinders);
    this.waitingJobs.add(series.waitingJobs);
    this.stopped.add(series.stoppedModules);
    this.heldUp.add(series.heldUpModules);
    this.pulled.add(series.pulledModules);
    this.places.add(series.places);
    this.levels.add(series.levels);
  }

  /** @param certain that every show is the same, by the scenario */
  estimates(confidence: number, certain: boolean): RunEstimates['series'] {
    /** One estimate for each slice; the moments of a slice have `width` columns. */
    const list = (moments: ColumnMoments, width = 1, column = 0): Estimate[] =>
      Array.from({ length: this.slices }, (_, k) =>
        meanOverShows(moments.at(k * width + column), confidence, certain, { min: 0 }),
      );
    const place = (name: (typeof PLACES)[number]): Estimate[] =>
      list(this.places, PLACES.length, PLACES.indexOf(name));
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
      level_mean: Array.from({ length: this.modules }, (_, m) => list(this.levels, this.modules, m)),
    };
  }
}
