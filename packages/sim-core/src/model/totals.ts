import { Laps } from './laps.js';
import type { MeasurePlan } from './measurePlan.js';

const HOUR = 3600;

/**
 * Counters and time integrals over the measured time of one replication. At the end of the warm-up a new one takes the
 * place of the old. Arrays are by module unless said otherwise; times are seconds.
 */
export class Totals {
  /** Where the measured time begins. */
  readonly from: number;

  /** Balls that went on to the next module. */
  readonly handedOn: Float64Array;
  readonly cycles: Float64Array;
  readonly emptyCycles: Float64Array;
  readonly waitingSeconds: Float64Array;
  readonly stops: Float64Array;
  readonly stoppedSeconds: Float64Array;
  readonly leaks: Float64Array;
  /** Balls that fell out of a mechanism when a stop began. */
  readonly dropped: Float64Array;

  /** Spills at a full basket while its module was stopped, on the backlog a stop left, or neither. */
  readonly spillsWhileStopped: Float64Array;
  readonly spillsOnBacklog: Float64Array;
  readonly spillsOnInflow: Float64Array;
  /** After the opening; Infinity while none has happened. */
  readonly firstSpill: Float64Array;
  /** Full public hours, and which of them saw a spill: [hour] anywhere, [module * hours + hour] at each module. */
  readonly hours: number;
  readonly hourSpilled: Uint8Array;
  readonly moduleHourSpilled: Uint8Array;

  readonly levelPeak: Float64Array;
  /** Time at each level, an array for each module. */
  readonly levelTime: Float64Array[];

  readonly laps: Laps;
  /** Releases at the counter module. */
  passes = 0;
  /** Time on the path, summed over finished visits or laps, broken ones included; and their number. */
  pathSeconds = 0;
  pathVisits = 0;
  /** Integral over time of the number of balls on the path. */
  pathArea = 0;
  /** Balls that came from the feed, went into the tray, were never found on the floor. */
  entered = 0;
  left = 0;
  lost = 0;

  /** Stops cleared by the crew: how many, time from stop to cleared in all and the longest. */
  clearCount = 0;
  clearSeconds = 0;
  clearLongest = 0;
  /** Integrals over time of minders busy, minders on duty, jobs waiting. */
  busySeconds = 0;
  dutySeconds = 0;
  waitingJobSeconds = 0;

  /**
   * @param from where the measured time begins
   * @param measuredSeconds how long it is
   * @param levels basket levels at its beginning
   */
  constructor(plan: MeasurePlan, from: number, measuredSeconds: number, levels: Int32Array) {
    const modules = levels.length;
    const column = (): Float64Array => new Float64Array(modules);
    this.from = from;
    this.handedOn = column();
    this.cycles = column();
    this.emptyCycles = column();
    this.waitingSeconds = column();
    this.stops = column();
    this.stoppedSeconds = column();
    this.leaks = column();
    this.dropped = column();
    this.spillsWhileStopped = column();
    this.spillsOnBacklog = column();
    this.spillsOnInflow = column();
    this.firstSpill = column().fill(Infinity);
    this.hours = Math.floor(measuredSeconds / HOUR + 1e-9);
    this.hourSpilled = new Uint8Array(this.hours);
    this.moduleHourSpilled = new Uint8Array(this.hours * modules);
    this.levelPeak = Float64Array.from(levels);
    this.levelTime = Array.from(levels, (level) => new Float64Array(Math.max(64, 2 * level)));
    this.laps = new Laps(plan);
  }

  /** Call after a basket's level rose. */
  levelRose(m: number, level: number): void {
    if (level <= this.levelPeak[m]) return;
    this.levelPeak[m] = level;
    if (level >= this.levelTime[m].length) {
      const grown = new Float64Array(2 * level);
      grown.set(this.levelTime[m]);
      this.levelTime[m] = grown;
    }
  }

  /** Books a spill in its class: while the module was stopped, on the backlog a stop left, or neither. */
  countSpill(m: number, now: number, stopped: boolean, backlog: boolean): void {
    if (stopped) this.spillsWhileStopped[m]++;
    else if (backlog) this.spillsOnBacklog[m]++;
    else this.spillsOnInflow[m]++;
    if (now < this.firstSpill[m]) this.firstSpill[m] = now;
    // A spill at the very end belongs to the hour that ends.
    const hour = Math.max(0, Math.ceil((now - this.from) / HOUR) - 1);
    if (hour < this.hours) {
      this.hourSpilled[hour] = 1;
      this.moduleHourSpilled[m * this.hours + hour] = 1;
    }
  }

  countCleared(seconds: number): void {
    this.clearCount++;
    this.clearSeconds += seconds;
    if (seconds > this.clearLongest) this.clearLongest = seconds;
  }
}
