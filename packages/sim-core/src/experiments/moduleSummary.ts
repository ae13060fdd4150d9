import type { ReplicationResult } from '../model/index.js';
import type { ModuleSpec } from '../model/spec/index.js';
import {
  clusteredProportion,
  type Estimate,
  meanInterval,
  Moments,
  rateInterval,
  wilsonInterval,
} from '../statistics/index.js';
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
  private readonly spills = new Moments();
  private readonly spillsWhileStopped = new Moments();
  private readonly spillsOnBacklog = new Moments();
  private readonly spillsOnInflow = new Moments();
  private readonly leaks = new Moments();
  private readonly dropped = new Moments();
  private readonly stops = new Moments();
  private readonly riskHour = new Moments();
  private shows = 0;
  private showsWithSpill = 0;
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
    this.shows++;
    if (spills > 0) this.showsWithSpill++;
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
    const rate = (moments: Moments): Estimate =>
      rateInterval(moments, this.measuredSeconds / 3600, confidence);
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
      spills_per_hour: rate(this.spills),
      spills_by_cause_per_hour: {
        module_stopped: rate(this.spillsWhileStopped),
        backlog_of_stop: rate(this.spillsOnBacklog),
        inflow: rate(this.spillsOnInflow),
      },
      leaks_per_hour: rate(this.leaks),
      drops_per_hour: rate(this.dropped),
      stops_per_hour: rate(this.stops),
      overflow_risk: {
        hour: this.publicHours > 0 ? clusteredProportion(this.riskHour, this.publicHours, confidence) : null,
        show: wilsonInterval(this.showsWithSpill, this.shows, confidence),
      },
    };
  }
}
