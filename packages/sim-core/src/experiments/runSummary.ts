import type { MeasurePlan, ReplicationResult } from '../model/index.js';
import { PLACES } from '../model/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import {
  clusteredProportion,
  type Estimate,
  meanInterval,
  Moments,
  rateInterval,
  wilsonInterval,
} from '../statistics/index.js';
import type { ModuleEstimates, RunEstimates } from './runResult.js';

const SHARE = { min: 0, max: 1 };
const COUNT = { min: 0 };

/** Accumulated measures of one module. */
class ModuleSummary {
  readonly starved = new Moments();
  readonly stopped = new Moments();
  readonly levelMean = new Moments();
  readonly levelP50 = new Moments();
  readonly levelP95 = new Moments();
  readonly levelPeak = new Moments();
  readonly throughput = new Moments();
  readonly spills = new Moments();
  readonly spillsWhileStopped = new Moments();
  readonly spillsOnBacklog = new Moments();
  readonly spillsOnInflow = new Moments();
  readonly leaks = new Moments();
  readonly dropped = new Moments();
  readonly stops = new Moments();
  readonly riskHour = new Moments();
  showsWithSpill = 0;
}

/**
 * Adds up replications, one after another in their order, in memory that does not grow with their number, and gives
 * estimates with intervals over them.
 */
export class RunSummary {
  replications = 0;
  events = 0;

  private readonly spec: LoopSpec;
  private readonly plan: MeasurePlan;
  private readonly modules: ModuleSummary[];
  private readonly throughput = new Moments();
  private readonly lapMean = new Moments();
  private readonly lapSd = new Moments();
  private readonly lapP05 = new Moments();
  private readonly lapP50 = new Moments();
  private readonly lapP95 = new Moments();
  private readonly brokenLaps = new Moments();
  private readonly onPath = new Moments();
  private readonly spills = new Moments();
  private readonly spillsWhileStopped = new Moments();
  private readonly spillsOnBacklog = new Moments();
  private readonly spillsOnInflow = new Moments();
  private readonly leaks = new Moments();
  private readonly dropped = new Moments();
  private readonly lost = new Moments();
  private readonly stops = new Moments();
  private readonly riskHour = new Moments();
  private readonly firstSpill = new Moments();
  private readonly busy = new Moments();
  private readonly waitingJobs = new Moments();
  private readonly timeToClear = new Moments();
  private readonly longestClear = new Moments();
  private readonly little = new Moments();
  private readonly series: Record<
    'throughput' | 'spills' | 'stops' | 'busy' | 'waitingJobs' | 'stopped',
    Moments[]
  >;
  private readonly places: Moments[];
  private readonly levels: Moments[];
  private readonly lapHistogram: Float64Array;
  private showsWithSpill = 0;
  private hours = 0;
  private measuredSeconds = 0;

  constructor(spec: LoopSpec, plan: MeasurePlan) {
    const slices = plan.sliceEnds.length;
    const many = (count: number): Moments[] => Array.from({ length: count }, () => new Moments());
    this.spec = spec;
    this.plan = plan;
    this.modules = spec.modules.map(() => new ModuleSummary());
    this.series = {
      throughput: many(slices),
      spills: many(slices),
      stops: many(slices),
      busy: many(slices),
      waitingJobs: many(slices),
      stopped: many(slices),
    };
    this.places = many(slices * PLACES.length);
    this.levels = many(slices * spec.modules.length);
    this.lapHistogram = new Float64Array(plan.lapBins);
  }

  /** Adds the next replication. */
  add(result: ReplicationResult): void {
    const seconds = result.measuredSeconds;
    const hours = seconds / 3600;
    this.replications++;
    this.events += result.events;
    this.measuredSeconds = seconds;
    this.hours = result.hours;
    this.addModules(result, seconds, hours);
    this.addSeries(result);

    const { modules, laps, crew } = result;
    const whileStopped = sum(modules.spillsWhileStopped);
    const onBacklog = sum(modules.spillsOnBacklog);
    const onInflow = sum(modules.spillsOnInflow);
    const spills = whileStopped + onBacklog + onInflow;
    this.throughput.add(result.passes / seconds);
    this.lapMean.add(laps.mean);
    this.lapSd.add(laps.sd);
    this.lapP05.add(laps.p05);
    this.lapP50.add(laps.p50);
    this.lapP95.add(laps.p95);
    this.brokenLaps.add(laps.broken / (laps.broken + laps.count));
    this.onPath.add(result.onPath);
    this.spills.add(spills / hours);
    this.spillsWhileStopped.add(whileStopped / hours);
    this.spillsOnBacklog.add(onBacklog / hours);
    this.spillsOnInflow.add(onInflow / hours);
    this.leaks.add(sum(modules.leaks) / hours);
    this.dropped.add(sum(modules.dropped) / hours);
    this.lost.add(result.lost / hours);
    this.stops.add(sum(modules.stops) / hours);
    this.riskHour.add(result.hoursWithSpill / result.hours);
    this.firstSpill.add(result.firstSpill);
    if (spills > 0) this.showsWithSpill++;
    this.busy.add(crew.busySeconds / crew.dutySeconds);
    this.waitingJobs.add(crew.waitingJobs);
    this.timeToClear.add(crew.clearMeanSeconds);
    this.longestClear.add(crew.clearLongestSeconds);
    this.little.add(result.littleResidual);
    result.lapHistogram.forEach((count, i) => (this.lapHistogram[i] = (this.lapHistogram[i] ?? 0) + count));
  }

  private addModules(result: ReplicationResult, seconds: number, hours: number): void {
    const columns = result.modules;
    for (const [m, module] of this.modules.entries()) {
      const at = (column: Float64Array): number => column[m] ?? NaN;
      const spills =
        at(columns.spillsWhileStopped) + at(columns.spillsOnBacklog) + at(columns.spillsOnInflow);
      module.starved.add(at(columns.starvedShare));
      module.stopped.add(at(columns.stoppedShare));
      module.levelMean.add(at(columns.levelMean));
      module.levelP50.add(at(columns.levelP50));
      module.levelP95.add(at(columns.levelP95));
      module.levelPeak.add(at(columns.levelPeak));
      module.throughput.add(at(columns.handedOn) / seconds);
      module.spills.add(spills / hours);
      module.spillsWhileStopped.add(at(columns.spillsWhileStopped) / hours);
      module.spillsOnBacklog.add(at(columns.spillsOnBacklog) / hours);
      module.spillsOnInflow.add(at(columns.spillsOnInflow) / hours);
      module.leaks.add(at(columns.leaks) / hours);
      module.dropped.add(at(columns.dropped) / hours);
      module.stops.add(at(columns.stops) / hours);
      module.riskHour.add(at(columns.hoursWithSpill) / result.hours);
      if (spills > 0) module.showsWithSpill++;
    }
  }

  private addSeries({ series }: ReplicationResult): void {
    let start = 0;
    for (const [k, end] of this.plan.sliceEnds.entries()) {
      const seconds = end - start;
      start = end;
      this.series.throughput[k]?.add((series.passes[k] ?? NaN) / seconds);
      this.series.spills[k]?.add(((series.spills[k] ?? NaN) / seconds) * 3600);
      this.series.stops[k]?.add(((series.stops[k] ?? NaN) / seconds) * 3600);
      this.series.busy[k]?.add(series.busyMinders[k] ?? NaN);
      this.series.waitingJobs[k]?.add(series.waitingJobs[k] ?? NaN);
      this.series.stopped[k]?.add(series.stoppedModules[k] ?? NaN);
    }
    for (const [i, moments] of this.places.entries()) moments.add(series.places[i] ?? NaN);
    for (const [i, moments] of this.levels.entries()) moments.add(series.levels[i] ?? NaN);
  }

  /** The estimates over what has been added so far. */
  estimates(confidence: number): RunEstimates {
    const mean = (moments: Moments, bounds = {}): Estimate => meanInterval(moments, confidence, bounds);
    const hours = this.measuredSeconds / 3600;
    const rate = (moments: Moments): Estimate => rateInterval(moments, hours, confidence);
    return {
      throughput_bps: mean(this.throughput, COUNT),
      loop_time_s: {
        mean: mean(this.lapMean, COUNT),
        sd: mean(this.lapSd, COUNT),
        p05: mean(this.lapP05, COUNT),
        p50: mean(this.lapP50, COUNT),
        p95: mean(this.lapP95, COUNT),
      },
      broken_lap_share: mean(this.brokenLaps, SHARE),
      balls_on_path: mean(this.onPath, COUNT),
      spills_per_hour: rate(this.spills),
      spills_by_cause_per_hour: {
        module_stopped: rate(this.spillsWhileStopped),
        backlog_of_stop: rate(this.spillsOnBacklog),
        inflow: rate(this.spillsOnInflow),
      },
      leaks_per_hour: rate(this.leaks),
      drops_per_hour: rate(this.dropped),
      lost_per_hour: rate(this.lost),
      stops_per_hour: rate(this.stops),
      overflow_risk: {
        hour: this.hours > 0 ? clusteredProportion(this.riskHour, this.hours, confidence) : null,
        show: wilsonInterval(this.showsWithSpill, this.replications, confidence),
      },
      first_spill_s: mean(this.firstSpill, COUNT),
      crew: {
        busy_share: mean(this.busy, COUNT),
        jobs_waiting: mean(this.waitingJobs, COUNT),
        time_to_clear_s: mean(this.timeToClear, COUNT),
        longest_time_to_clear_s: mean(this.longestClear, COUNT),
      },
      little_residual: mean(this.little),
      modules: this.modules.map((_, m) => this.moduleEstimates(m, confidence)),
      loop_time_histogram: {
        bin_s: this.plan.lapBinSeconds,
        laps: [...this.lapHistogram],
      },
      series: this.seriesEstimates(confidence),
    };
  }

  private moduleEstimates(m: number, confidence: number): ModuleEstimates {
    const module = this.modules[m] as ModuleSummary;
    const { id, title, builder, design } = this.spec.modules[m] ?? { id: '' };
    const mean = (moments: Moments, bounds = COUNT): Estimate => meanInterval(moments, confidence, bounds);
    const rate = (moments: Moments): Estimate =>
      rateInterval(moments, this.measuredSeconds / 3600, confidence);
    return {
      id,
      ...(title !== undefined && { title }),
      ...(builder !== undefined && { builder }),
      ...(design !== undefined && { design }),
      starved_share: mean(module.starved, SHARE),
      stopped_share: mean(module.stopped, SHARE),
      held_up_share: mean(nothing(this.replications), SHARE),
      level_mean: mean(module.levelMean),
      level_p50: mean(module.levelP50),
      level_p95: mean(module.levelP95),
      level_peak: mean(module.levelPeak),
      throughput_bps: mean(module.throughput),
      spills_per_hour: rate(module.spills),
      spills_by_cause_per_hour: {
        module_stopped: rate(module.spillsWhileStopped),
        backlog_of_stop: rate(module.spillsOnBacklog),
        inflow: rate(module.spillsOnInflow),
      },
      leaks_per_hour: rate(module.leaks),
      drops_per_hour: rate(module.dropped),
      stops_per_hour: rate(module.stops),
      overflow_risk: {
        hour: this.hours > 0 ? clusteredProportion(module.riskHour, this.hours, confidence) : null,
        show: wilsonInterval(module.showsWithSpill, this.replications, confidence),
      },
    };
  }

  private seriesEstimates(confidence: number): RunEstimates['series'] {
    const list = (moments: readonly Moments[]): Estimate[] =>
      moments.map((one) => meanInterval(one, confidence, COUNT));
    const modules = this.modules.length;
    const place = (name: (typeof PLACES)[number]): Estimate[] =>
      list(this.places.filter((_, j) => PLACES[j % PLACES.length] === name));
    return {
      slice_ends_s: this.plan.sliceEnds,
      throughput_bps: list(this.series.throughput),
      spills_per_hour: list(this.series.spills),
      stops_per_hour: list(this.series.stops),
      busy_minders: list(this.series.busy),
      jobs_waiting: list(this.series.waitingJobs),
      stopped_modules: list(this.series.stopped),
      balls_by_place: {
        baskets: place('baskets'),
        mechanisms: place('mechanisms'),
        run_outs: place('run_outs'),
        floor: place('floor'),
        lost: place('lost'),
      },
      level_mean: this.modules.map((_, m) => list(this.levels.filter((_, j) => j % modules === m))),
    };
  }
}

/** A measure that is zero in every replication: nothing holds a mechanism up while every basket spills. */
function nothing(replications: number): Moments {
  const moments = new Moments();
  for (let i = 0; i < replications; i++) moments.add(0);
  return moments;
}

function sum(values: Float64Array): number {
  return values.reduce((total, value) => total + value, 0);
}
