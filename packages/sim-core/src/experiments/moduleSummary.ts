import type { ReplicationResult } from '../model/index.js';
import type { ModuleSpec } from '../model/spec/index.js';
import { type Estimate, meanOverShows, Moments } from '../statistics/index.js';
import { Clumps } from './clumps.js';
import { eventsOverShows } from './eventsOverShows.js';
import { overflowRisk } from './overflowRisk.js';
import type { PlacePossibilities } from './possibilities.js';
import type { ModuleEstimates } from './runResult.js';
import { Shares } from './shares.js';
import { UsedRate } from './usedRate.js';

const SHARE = { min: 0, max: 1 };
const COUNT = { min: 0 };

/** Adds up the measures of one module over replications. */
export class ModuleSummary {
  private readonly spec: ModuleSpec;
  /** The module's place in the columns of a result. */
  private readonly m: number;
  private readonly can: PlacePossibilities;
  private readonly starved = new Moments();
  private readonly stopped = new Shares();
  private readonly heldUp = new Shares();
  private readonly pulled = new Shares();
  private readonly pulls = new Moments();
  private readonly returned = new Clumps();
  private readonly recirculated = new Clumps();
  private readonly levelMean = new Moments();
  private readonly levelP50 = new Moments();
  private readonly levelP95 = new Moments();
  private readonly levelPeak = new Moments();
  private readonly throughput = new Moments();
  private readonly spills = new Clumps();
  private readonly spillsWhileStopped = new Clumps();
  private readonly spillsOnBacklog = new Clumps();
  private readonly spillsOnInflow = new Clumps();
  private readonly leaks = new Moments();
  private readonly dropped = new Clumps();
  private readonly stops = new Moments();
  private readonly stopsInLoop = new UsedRate();
  private readonly riskHour = new Moments();
  private readonly riskShow = new Moments();
  private measuredSeconds = 0;
  private publicHours = 0;

  constructor(spec: ModuleSpec, m: number, can: PlacePossibilities) {
    this.spec = spec;
    this.m = m;
    this.can = can;
  }

  add({ modules, measuredSeconds, hours: publicHours }: ReplicationResult): void {
    const at = (column: Float64Array): number => column[this.m] ?? NaN;
    const hours = measuredSeconds / 3600;
    const spills = at(modules.spillsWhileStopped) + at(modules.spillsOnBacklog) + at(modules.spillsOnInflow);
    this.measuredSeconds = measuredSeconds;
    this.publicHours = publicHours;
    this.riskShow.add(spills > 0 ? 1 : 0);
    this.starved.add(at(modules.starvedShare));
    this.stopped.add(at(modules.stoppedShare));
    this.heldUp.add(at(modules.heldUpShare));
    this.pulled.add(at(modules.pulledShare));
    this.pulls.add(at(modules.pulls));
    this.returned.add(at(modules.returned) / hours);
    this.recirculated.add(at(modules.recirculated) / hours);
    this.levelMean.add(at(modules.levelMean));
    this.levelP50.add(at(modules.levelP50));
    this.levelP95.add(at(modules.levelP95));
    this.levelPeak.add(at(modules.levelPeak));
    this.throughput.add(at(modules.handedOn) / measuredSeconds);
    this.spills.add(spills / hours);
    this.spillsWhileStopped.add(at(modules.spillsWhileStopped) / hours);
    this.spillsOnBacklog.add(at(modules.spillsOnBacklog) / hours);
    this.spillsOnInflow.add(at(modules.spillsOnInflow) / hours);
    this.leaks.add(at(modules.leaks) / hours);
    this.dropped.add(at(modules.dropped) / hours);
    this.stops.add(at(modules.stops) / hours);
    // A share of the whole time may miss 1 by rounding.
    this.stopsInLoop.add(at(modules.stops), Math.max(0, hours * (1 - at(modules.pulledShare))));
    this.riskHour.add(at(modules.hoursWithSpill) / publicHours);
  }

  /** @param certain that every show is the same, by the scenario */
  estimates(confidence: number, certain: boolean): ModuleEstimates {
    const { id, title, builder, design } = this.spec;
    const mean = (moments: Moments, bounds = COUNT): Estimate =>
      meanOverShows(moments, confidence, certain, bounds);
    const { can } = this;
    const ownStops = this.spec.stops.length > 0;
    const clumps = (rates: Clumps, possible: boolean): Estimate =>
      rates.interval(confidence, possible, certain);
    const events = (counts: Moments, possible: boolean, each = this.measuredSeconds / 3600): Estimate =>
      eventsOverShows(counts, each, confidence, { possible, certain });
    return {
      id,
      ...(title !== undefined && { title }),
      ...(builder !== undefined && { builder }),
      ...(design !== undefined && { design }),
      starved_share: mean(this.starved, SHARE),
      stopped_share: this.stopped.interval(confidence, ownStops, certain),
      held_up_share: this.heldUp.interval(confidence, can.heldUp, certain),
      pulled_share: this.pulled.interval(confidence, can.pulled, certain),
      pulls_per_show: events(this.pulls, can.pulled, 1),
      returned_per_hour: clumps(this.returned, can.returned),
      recirculated_per_hour: clumps(this.recirculated, can.recirculated),
      level_mean: mean(this.levelMean),
      level_p50: mean(this.levelP50),
      level_p95: mean(this.levelP95),
      level_peak: mean(this.levelPeak),
      throughput_bps: mean(this.throughput),
      spills_per_hour: clumps(this.spills, can.spill),
      spills_by_cause_per_hour: {
        module_stopped: clumps(this.spillsWhileStopped, can.spill && can.stopped),
        backlog_of_stop: clumps(this.spillsOnBacklog, can.spill && can.stopped),
        inflow: clumps(this.spillsOnInflow, can.spill),
      },
      leaks_per_hour: events(this.leaks, can.leaked),
      drops_per_hour: clumps(this.dropped, can.dropped),
      stops_per_hour: events(this.stops, ownStops),
      stops_per_hour_in_loop: this.stopsInLoop.interval(confidence, ownStops, certain),
      overflow_risk: overflowRisk(this.riskHour, this.riskShow, {
        hours: this.publicHours,
        confidence,
        possible: can.spill,
      }),
    };
  }
}
