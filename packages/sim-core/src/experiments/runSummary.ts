import type { MeasurePlan, ReplicationResult } from '../model/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import {
  clusteredProportion,
  type Estimate,
  meanInterval,
  Moments,
  rateInterval,
  wilsonInterval,
} from '../statistics/index.js';
import { ModuleSummary } from './moduleSummary.js';
import type { RunEstimates } from './runResult.js';
import { SeriesSummary } from './seriesSummary.js';

const SHARE = { min: 0, max: 1 };
const COUNT = { min: 0 };

/**
 * Adds up replications, one after another in their order, in memory that does not grow with their number, and gives
 * estimates with intervals over them.
 */
export class RunSummary {
  replications = 0;

  private readonly plan: MeasurePlan;
  private readonly modules: readonly ModuleSummary[];
  private readonly series: SeriesSummary;
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
  private readonly lapHistogram: Float64Array;
  private showsWithSpill = 0;
  private publicHours = 0;
  private measuredSeconds = 0;

  constructor(spec: LoopSpec, plan: MeasurePlan) {
    this.plan = plan;
    this.modules = spec.modules.map((module, m) => new ModuleSummary(module, m));
    this.series = new SeriesSummary(plan, spec.modules.length);
    this.lapHistogram = new Float64Array(plan.lapBins);
  }

  /** Adds the next replication. */
  add(result: ReplicationResult): void {
    const { modules, laps, crew, measuredSeconds } = result;
    const hours = measuredSeconds / 3600;
    const whileStopped = sum(modules.spillsWhileStopped);
    const onBacklog = sum(modules.spillsOnBacklog);
    const onInflow = sum(modules.spillsOnInflow);
    const spills = whileStopped + onBacklog + onInflow;
    this.replications++;
    this.measuredSeconds = measuredSeconds;
    this.publicHours = result.hours;
    if (spills > 0) this.showsWithSpill++;
    this.throughput.add(result.passes / measuredSeconds);
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
    this.busy.add(crew.busySeconds / crew.dutySeconds);
    this.waitingJobs.add(crew.waitingJobs);
    this.timeToClear.add(crew.clearMeanSeconds);
    this.longestClear.add(crew.clearLongestSeconds);
    this.little.add(result.littleResidual);
    for (const [i, count] of result.lapHistogram.entries())
      this.lapHistogram[i] = (this.lapHistogram[i] ?? 0) + count;
    for (const module of this.modules) module.add(result);
    this.series.add(result);
  }

  /** The estimates over what has been added so far. */
  estimates(confidence: number): RunEstimates {
    const mean = (moments: Moments, bounds = {}): Estimate => meanInterval(moments, confidence, bounds);
    const rate = (moments: Moments): Estimate =>
      rateInterval(moments, this.measuredSeconds / 3600, confidence);
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
        hour: this.publicHours > 0 ? clusteredProportion(this.riskHour, this.publicHours, confidence) : null,
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
      modules: this.modules.map((module) => module.estimates(confidence)),
      loop_time_histogram: { bin_s: this.plan.lapBinSeconds, laps: [...this.lapHistogram] },
      series: this.series.estimates(confidence),
    };
  }
}

function sum(values: Float64Array): number {
  return values.reduce((total, value) => total + value, 0);
}
