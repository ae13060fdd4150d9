import { Laps } from './laps.js';
import type { MeasurePlan } from './measurePlan.js';
import { sessionsOf, type ShowSpec } from './spec/index.js';

const HOUR = 3600;
const MINUTE = 60;

/**
 * Counters and time integrals over the measured time of one replication. At the end of the warm-up a new one takes the
 * place of the old. Arrays are by place in the loop unless said otherwise; times are seconds.
 */
export class Totals {
  /** Where the measured time begins. */
  readonly from: number;

  /** Balls that went on to the next module. */
  readonly handedOn: Float64Array;
  readonly cycles: Float64Array;
  readonly emptyCycles: Float64Array;
  readonly waitingSeconds: Float64Array;
  readonly heldUpSeconds: Float64Array;
  readonly stops: Float64Array;
  readonly stoppedSeconds: Float64Array;
  /** The columns from cycles to stopped seconds, and time in the loop, by number of the equipment; see {@link handOver}. */
  readonly own: readonly Float64Array[];
  readonly inLoopSeconds: Float64Array;
  readonly pulls: Float64Array;
  /** Balls that went down the overflow chute of a place, and that its lever sent back. */
  readonly returned: Float64Array;
  readonly recirculated: Float64Array;
  readonly leaks: Float64Array;
  /** Balls that fell out of a mechanism when a stop began. */
  readonly dropped: Float64Array;

  /** Spills at a full basket while its module was stopped, on the backlog a stop left, or neither. */
  readonly spillsWhileStopped: Float64Array;
  readonly spillsOnBacklog: Float64Array;
  readonly spillsOnInflow: Float64Array;
  /** After the opening; Infinity while none has happened. */
  readonly firstSpill: Float64Array;
  /**
   * Full public hours, counted from the beginning of each session; and which of them saw a spill: [hour] anywhere,
   * [module * hours + hour] at each module.
   */
  readonly hours: number;
  private readonly sessions: readonly {
    readonly from: number;
    readonly to: number;
    readonly firstHour: number;
  }[];
  readonly hourSpilled: Uint8Array;
  readonly moduleHourSpilled: Uint8Array;

  readonly levelPeak: Float64Array;
  /** Time at each level, an array for each module. */
  readonly levelTime: Float64Array[];

  readonly laps: Laps;
  /** Releases at the counter module. */
  passes = 0;
  /** Time on the path, summed over finished visits or laps, broken ones included; and their number. */
  pathSeconds: number = NaN;
  pathVisits = 0;
  /** Integral over time of the number of balls on the path. */
  pathArea: number = NaN;
  /** Balls that came from the feed, went into the tray, were never found on the floor. */
  entered = 0;
  left = 0;
  lost = 0;
  toppedUp = 0;
  /** Full minutes in which a ball passed the counter, of so many. */
  readonly minutes: number;
  movingMinutes = 0;
  private lastMinute = -1;

  /** Stops cleared by the crew: how many, time from stop to cleared in all and the longest. */
  clearCount = 0;
  clearSeconds: number = NaN;
  clearLongest: number = NaN;
  /** Integrals over time of minders busy, minders on duty, jobs waiting. */
  busySeconds: number = NaN;
  dutySeconds: number = NaN;
  waitingJobSeconds: number = NaN;

  /**
   * @param from where the measured time begins
   * @param levels basket levels at its beginning
   * @param equipment number of things that can stand in the loop
   */
  constructor(show: ShowSpec, plan: MeasurePlan, from: number, levels: Int32Array, equipment: number) {
    const modules = levels.length;
    const column = (): Float64Array => new Float64Array(modules);
    this.from = from;
    this.handedOn = column();
    this.cycles = column();
    this.emptyCycles = column();
    this.waitingSeconds = column();
    this.heldUpSeconds = column();
    this.stops = column();
    this.stoppedSeconds = column();
    this.own = this.handedOver().map(() => new Float64Array(equipment));
    this.inLoopSeconds = new Float64Array(equipment);
    this.pulls = column();
    this.returned = column();
    this.recirculated = column();
    this.leaks = column();
    this.dropped = column();
    this.spillsWhileStopped = column();
    this.spillsOnBacklog = column();
    this.spillsOnInflow = column();
    this.firstSpill = column().fill(Infinity);
    let hours = 0;
    this.sessions = sessionsOf(show).flatMap(({ fromSeconds, toSeconds }) => {
      const begin = Math.max(from, fromSeconds);
      const firstHour = hours;
      hours += Math.max(0, Math.floor((toSeconds - begin) / HOUR + 1e-9));
      return toSeconds > begin ? [{ from: begin, to: toSeconds, firstHour }] : [];
    });
    this.hours = hours;
    this.minutes = Math.floor((show.seconds - from) / MINUTE + 1e-9);
    this.hourSpilled = new Uint8Array(this.hours);
    this.moduleHourSpilled = new Uint8Array(this.hours * modules);
    this.levelPeak = Float64Array.from(levels);
    this.levelTime = Array.from(levels, (level) => new Float64Array(Math.max(64, 2 * level)));
    this.laps = new Laps(plan);
    // What will be a fraction begins as NaN, not as a whole number: see EventQueue.now.
    this.pathSeconds = this.pathArea = 0;
    this.clearSeconds = this.clearLongest = 0;
    this.busySeconds = this.dutySeconds = this.waitingJobSeconds = 0;
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
    const hour = this.hourOf(now);
    if (hour >= 0) {
      this.hourSpilled[hour] = 1;
      this.moduleHourSpilled[m * this.hours + hour] = 1;
    }
  }

  /** Number of the full public hour at a moment, -1 for none; the very end of an hour belongs to it. */
  private hourOf(now: number): number {
    const session = this.sessions.find(({ to }) => now <= to);
    if (session === undefined) return -1;
    const hour = Math.max(0, Math.ceil((now - session.from) / HOUR) - 1);
    return session.from + (hour + 1) * HOUR <= session.to + 1e-6 ? session.firstHour + hour : -1;
  }

  /** Notes that a ball has passed the counter. */
  countPass(now: number): void {
    this.passes++;
    const minute = Math.floor((now - this.from) / MINUTE);
    if (minute === this.lastMinute || minute >= this.minutes) return;
    this.lastMinute = minute;
    this.movingMinutes++;
  }

  /** What the equipment at place m has done so far becomes its own, and the place's columns begin anew. */
  handOver(m: number, equipment: number, seconds: number): void {
    this.inLoopSeconds[equipment] += seconds;
    for (const [i, column] of this.handedOver().entries()) {
      this.own[i][equipment] += column[m];
      column[m] = 0;
    }
  }

  private handedOver(): Float64Array[] {
    return [
      this.cycles,
      this.emptyCycles,
      this.waitingSeconds,
      this.heldUpSeconds,
      this.stops,
      this.stoppedSeconds,
    ];
  }

  countCleared(seconds: number): void {
    this.clearCount++;
    this.clearSeconds += seconds;
    if (seconds > this.clearLongest) this.clearLongest = seconds;
  }
}
