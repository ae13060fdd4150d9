import type { ReplicationResult } from '../model/index.js';
import type { ModuleSpec } from '../model/spec/index.js';
import {
  clusteredProportion,
  type Estimate,
  eventRateInterval,
  meanInterval,
  Moments,
} from '../statistics/index.js';
import { Clumps } from './clumps.js';
import type { ModuleEstimates } from './runResult.js';

const SHARE = { min: 0, max: 1 };
const COUNT = { min: 0 };

/** Adds up the measures of one module over replications. */
export class ModuleSummary {
  private readonly spec: ModuleSpec;
  /** The module's place in the columns of a result. */
  private readonly m: number;
  private readonly starved = new Moments();
  private readonly stopped = new Moments();
  private readonly heldUp = new Moments();
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
  private readonly riskHour = new Moments();
  private readonly riskShow = new Moments();
  private measuredSeconds = 0;
  private publicHours = 0;

  constructor(spec: ModuleSpec, m: number) {
    this.spec = spec;
    this.m = m;
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
    // Nothing holds a mechanism up while every full basket spills.
    this.heldUp.add(0);
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
    this.riskHour.add(at(modules.hoursWithSpill) / publicHours);
  }

  estimates(confidence: number): ModuleEstimates {
    const { id, title, builder, design } = this.spec;
    const mean = (moments: Moments, bounds = COUNT): Estimate => meanInterval(moments, confidence, bounds);
    const canSpill = this.spec.basket.capacity < Infinity;
    const canStop = this.spec.stops.length > 0;
    const clumps = (rates: Clumps, possible: boolean): Estimate => rates.interval(confidence, possible);
    const events = (rates: Moments, possible: boolean): Estimate =>
      possible ? eventRateInterval(rates, this.measuredSeconds / 3600, confidence) : mean(rates);
    return {
      id,
      ...(title !== undefined && { title }),
      ...(builder !== undefined && { builder }),
      ...(design !== undefined && { design }),
      starved_share: mean(this.starved, SHARE),
      stopped_share: mean(this.stopped, SHARE),
      held_up_share: mean(this.heldUp, SHARE),
      level_mean: mean(this.levelMean),
      level_p50: mean(this.levelP50),
      level_p95: mean(this.levelP95),
      level_peak: mean(this.levelPeak),
      throughput_bps: mean(this.throughput),
      spills_per_hour: clumps(this.spills, canSpill),
      spills_by_cause_per_hour: {
        module_stopped: clumps(this.spillsWhileStopped, canSpill && canStop),
        backlog_of_stop: clumps(this.spillsOnBacklog, canSpill && canStop),
        inflow: clumps(this.spillsOnInflow, canSpill),
      },
      leaks_per_hour: events(this.leaks, this.spec.leak > 0),
      drops_per_hour: clumps(
        this.dropped,
        this.spec.stops.some(({ drops }) => drops > 0),
      ),
      stops_per_hour: events(this.stops, canStop),
      overflow_risk: {
        hour: this.publicHours > 0 ? clusteredProportion(this.riskHour, this.publicHours, confidence) : null,
        show: clusteredProportion(this.riskShow, 1, confidence),
      },
    };
  }
}
