import type { MeasurePlan, ReplicationResult } from '../model/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { type Estimate, meanOverShows, Moments } from '../statistics/index.js';
import { BoxSummary } from './boxSummary.js';
import { withoutChance } from './certain.js';
import { Clumps } from './clumps.js';
import { eventsOverShows } from './eventsOverShows.js';
import { LockSummary } from './lockSummary.js';
import { ModuleSummary } from './moduleSummary.js';
import { overflowRisk } from './overflowRisk.js';
import { type Possibilities, possibilities } from './possibilities.js';
import type { RunEstimates } from './runResult.js';
import { SeriesSummary } from './seriesSummary.js';
import { SpareSummary } from './spareSummary.js';

const SHARE = { min: 0, max: 1 };
const COUNT = { min: 0 };

/**
 * Adds up replications, one after another in their order, in memory that does not grow with their number, and gives
 * estimates with intervals over them.
 */
export class RunSummary {
  replications = 0;

  private readonly spec: LoopSpec;
  private readonly plan: MeasurePlan;
  private readonly can: Possibilities;
  /** That every show is the same, by the scenario. */
  private readonly certain: boolean;
  private readonly modules: readonly ModuleSummary[];
  private readonly spares: readonly SpareSummary[];
  private readonly box: BoxSummary;
  private readonly lock: LockSummary;
  private readonly series: SeriesSummary;
  private readonly throughput = new Moments();
  private readonly lapMean = new Moments();
  private readonly lapSd = new Moments();
  private readonly lapP05 = new Moments();
  private readonly lapP50 = new Moments();
  private readonly lapP95 = new Moments();
  private readonly brokenLaps = new Moments();
  private readonly onPath = new Moments();
  private readonly spills = new Clumps();
  private readonly spillsWhileStopped = new Clumps();
  private readonly spillsOnBacklog = new Clumps();
  private readonly spillsOnInflow = new Clumps();
  private readonly leaks = new Moments();
  private readonly dropped = new Clumps();
  private readonly lost = new Clumps();
  private readonly returned = new Clumps();
  private readonly recirculated = new Clumps();
  private readonly stops = new Moments();
  private readonly riskHour = new Moments();
  private readonly riskShow = new Moments();
  private readonly firstSpill = new Moments();
  private readonly busy = new Moments();
  private readonly waitingJobs = new Moments();
  private readonly timeToClear = new Moments();
  private readonly longestStop = new Moments();
  private readonly openStops = new Moments();
  private readonly pulls = new Moments();
  private readonly moving = new Moments();
  private readonly little = new Moments();
  private readonly lapHistogram: Float64Array;
  private publicHours = 0;
  private measuredSeconds = 0;

  constructor(spec: LoopSpec, plan: MeasurePlan) {
    this.spec = spec;
    this.plan = plan;
    this.can = possibilities(spec);
    this.certain = withoutChance(spec);
    const { places, spares } = this.can;
    this.modules = spec.modules.flatMap((module, m) =>
      places[m] ? new ModuleSummary(module, m, places[m]) : [],
    );
    this.spares = (spec.spares ?? []).map((spare, s) => new SpareSummary(spare, s, spares[s] ?? false));
    this.box = new BoxSummary(spec.crew.topUp);
    this.lock = new LockSummary(spec.modules, this.can.locked);
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
    this.riskShow.add(spills > 0 ? 1 : 0);
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
    this.returned.add(sum(modules.returned) / hours);
    this.recirculated.add(sum(modules.recirculated) / hours);
    this.stops.add((sum(modules.stops) + sum(result.spares.stops)) / hours);
    this.riskHour.add(result.hoursWithSpill / result.hours);
    this.firstSpill.add(result.firstSpill);
    this.busy.add(crew.busySeconds / crew.dutySeconds);
    this.waitingJobs.add(crew.waitingJobs);
    this.timeToClear.add(crew.clearMeanSeconds);
    this.longestStop.add(crew.longestStopSeconds);
    this.openStops.add(crew.openStops);
    this.pulls.add(sum(modules.pulls));
    this.moving.add(result.movingShare);
    this.little.add(result.littleResidual);
    addTo(this.lapHistogram, result.lapHistogram);
    for (const part of [...this.modules, ...this.spares, this.box, this.lock]) part.add(result);
    this.series.add(result);
  }

  /** The estimates over what has been added so far. */
  estimates(confidence: number): RunEstimates {
    const { crew } = this.spec;
    const { certain } = this;
    const { places } = this.can;
    const mean = (moments: Moments, bounds = {}): Estimate =>
      meanOverShows(moments, confidence, certain, bounds);
    const canSpill = places.some(({ spill }) => spill);
    const canStop = places.some(({ stopped }) => stopped);
    const spillsByStops = places.some(({ spill, stopped }) => spill && stopped);
    const clumps = (rates: Clumps, possible: boolean): Estimate =>
      rates.interval(confidence, possible, certain);
    const events = (counts: Moments, possible: boolean, each = this.measuredSeconds / 3600): Estimate =>
      eventsOverShows(counts, each, confidence, { possible, certain });
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
      spills_per_hour: clumps(this.spills, canSpill),
      spills_by_cause_per_hour: {
        module_stopped: clumps(this.spillsWhileStopped, spillsByStops),
        backlog_of_stop: clumps(this.spillsOnBacklog, spillsByStops),
        inflow: clumps(this.spillsOnInflow, canSpill),
      },
      leaks_per_hour: events(
        this.leaks,
        places.some(({ leaked }) => leaked),
      ),
      drops_per_hour: clumps(
        this.dropped,
        places.some(({ dropped }) => dropped),
      ),
      lost_per_hour: clumps(this.lost, (crew.sweep?.lost ?? 0) > 0),
      returned_per_hour: clumps(
        this.returned,
        places.some(({ returned }) => returned),
      ),
      recirculated_per_hour: clumps(
        this.recirculated,
        places.some(({ recirculated }) => recirculated),
      ),
      stops_per_hour: events(this.stops, canStop),
      overflow_risk: overflowRisk(this.riskHour, this.riskShow, {
        hours: this.publicHours,
        confidence,
        possible: canSpill,
      }),
      first_spill_s: mean(this.firstSpill, COUNT),
      crew: {
        // Who is still at it when the shift ends works on: a little above 1 is possible.
        busy_share: mean(this.busy, { min: 0, max: Math.max(1, this.busy.mean) }),
        jobs_waiting: mean(this.waitingJobs, COUNT),
        time_to_clear_s: mean(this.timeToClear, COUNT),
        longest_stop_s: mean(this.longestStop, COUNT),
        stops_open_at_closing: mean(this.openStops, COUNT),
      },
      pulls_per_show: events(this.pulls, this.can.pulled, 1),
      ...this.box.estimates(confidence, certain),
      moving_share: mean(this.moving, SHARE),
      locked: this.lock.estimates(confidence, certain),
      little_residual: mean(this.little),
      modules: this.modules.map((module) => module.estimates(confidence, certain)),
      spares: this.spares.map((spare) => spare.estimates(confidence, certain)),
      loop_time_histogram: { bin_s: this.plan.lapBinSeconds, laps: [...this.lapHistogram] },
      series: this.series.estimates(confidence, certain),
    };
  }
}

/** A function of its own: in the long one above, a loop would have the engine compile all of that. */
function addTo(sums: Float64Array, values: Float64Array): void {
  for (let i = 0; i < sums.length; i++) sums[i] = (sums[i] ?? 0) + (values[i] ?? 0);
}

function sum(values: Float64Array): number {
  return values.reduce((total, value) => total + value, 0);
}
