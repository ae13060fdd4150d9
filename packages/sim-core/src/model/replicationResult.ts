import type { SampleSummary } from '../statistics/index.js';
import { settleHeldUp } from './backUp.js';
import { settleAll } from './sampling.js';
import { HELD_UP, type LoopState, WAITING } from './loopState.js';
import { settleWaiting } from './mechanism.js';
import type { Series } from './series.js';
import { needsCrew } from './stops.js';

/**
 * What one replication measured: plain data that can be sent between threads. Arrays are by module in loop order;
 * times are seconds, NaN where there was nothing to measure.
 */
export interface ReplicationResult {
  readonly replication: number;
  readonly events: number;
  /** Public time without the warm-up. */
  readonly measuredSeconds: number;
  /** Balls released at the counter module. */
  readonly passes: number;
  /** Unbroken laps (loop), or ways through the chain of balls that never fell. */
  readonly laps: SampleSummary & { readonly count: number; readonly broken: number };
  /** Unbroken laps by length, bars of the measuring plan. */
  readonly lapHistogram: Float64Array;
  /** Average number of balls on the path: in baskets, mechanisms and run-outs. */
  readonly onPath: number;
  /** (balls on path - rate of passes x time on path per pass) / balls on path: Little's law, up to the edges. */
  readonly littleResidual: number;
  readonly entered: number;
  readonly left: number;
  readonly lost: number;
  /** First spill after the opening, Infinity when there was none. */
  readonly firstSpill: number;
  readonly hours: number;
  readonly hoursWithSpill: number;
  readonly crew: {
    readonly busySeconds: number;
    readonly dutySeconds: number;
    /** Average number of jobs waiting for a minder. */
    readonly waitingJobs: number;
    readonly clearCount: number;
    /** Stop to cleared, stops cleared by the crew. */
    readonly clearMeanSeconds: number;
    /** Longest stop that needs the crew, cleared or still open at the end; NaN when there was none. */
    readonly longestStopSeconds: number;
    /** Stops that need the crew and are still open at the end. */
    readonly openStops: number;
  };
  /** Balls that came from the box, and how many are left in it. */
  readonly toppedUp: number;
  readonly boxLeft: number;
  /** The first moment at which nothing could move any more, and the modules held up then; null when there was none. */
  readonly locked: { readonly at: number; readonly heldUp: Int32Array } | null;
  /** Share of the full public minutes in which a ball passed the counter; NaN when there is no full minute. */
  readonly movingShare: number;
  /** By spare: share of measured time in a place of the loop, stops, share of measured time stopped. */
  readonly spares: {
    readonly inUseShare: Float64Array;
    readonly stops: Float64Array;
    readonly stoppedShare: Float64Array;
  };
  /** Stops, stopped, starved and held-up shares are the module's own, not those of what stood in its place. */
  readonly modules: {
    readonly handedOn: Float64Array;
    /** Continuous drive: share of cycles that were empty. Demand drive: share of unstopped time spent waiting. */
    readonly starvedShare: Float64Array;
    readonly stoppedShare: Float64Array;
    readonly heldUpShare: Float64Array;
    /** Share of measured time out of the loop, and how often it was pulled. */
    readonly pulledShare: Float64Array;
    readonly pulls: Float64Array;
    readonly stops: Float64Array;
    /** Balls that went down the overflow chute of this place, and balls that its lever sent back. */
    readonly returned: Float64Array;
    readonly recirculated: Float64Array;
    readonly leaks: Float64Array;
    readonly dropped: Float64Array;
    readonly spillsWhileStopped: Float64Array;
    readonly spillsOnBacklog: Float64Array;
    readonly spillsOnInflow: Float64Array;
    readonly hoursWithSpill: Float64Array;
    readonly levelMean: Float64Array;
    readonly levelP50: Float64Array;
    readonly levelP95: Float64Array;
    readonly levelPeak: Float64Array;
  };
  readonly series: Pick<
    Series,
    | 'passes'
    | 'spills'
    | 'stops'
    | 'busyMinders'
    | 'waitingJobs'
    | 'stoppedModules'
    | 'heldUpModules'
    | 'pulledModules'
    | 'places'
    | 'levels'
  >;
}

/** Closes the books of a replication that has reached its end. */
export function replicationResult(s: LoopState, replication: number, events: number): ReplicationResult {
  settleAll(s);
  const { totals, series } = s;
  const { modules: n } = s.loop;
  const { laps } = totals;
  const measured = s.loop.end - totals.from;
  for (let m = 0; m < n; m++) closePlace(s, m);
  const [cycles, emptyCycles, waiting, heldUp, stops, stopped] = totals.own;
  const inLoop = totals.inLoopSeconds;
  const open = openStops(s);
  const column = (value: (m: number) => number): Float64Array =>
    Float64Array.from({ length: n }, (_, m) => value(m));
  const onPath = totals.pathArea / measured;
  return {
    replication,
    events,
    measuredSeconds: measured,
    passes: totals.passes,
    laps: { ...laps.summary(), count: laps.count, broken: laps.broken },
    lapHistogram: laps.histogram,
    onPath,
    littleResidual: littleResidual(s, onPath, measured),
    entered: totals.entered,
    left: totals.left,
    lost: totals.lost,
    firstSpill: totals.firstSpill.reduce((first, time) => Math.min(first, time), Infinity),
    hours: totals.hours,
    hoursWithSpill: countOnes(totals.hourSpilled, 0, totals.hours),
    crew: {
      busySeconds: totals.busySeconds,
      dutySeconds: totals.dutySeconds,
      waitingJobs: totals.waitingJobSeconds / measured,
      clearCount: totals.clearCount,
      clearMeanSeconds: totals.clearSeconds / totals.clearCount,
      longestStopSeconds: totals.clearCount + open.length > 0 ? Math.max(totals.clearLongest, ...open) : NaN,
      openStops: open.length,
    },
    toppedUp: totals.toppedUp,
    boxLeft: s.box,
    locked: s.locked,
    movingShare: totals.movingMinutes / totals.minutes,
    spares: {
      inUseShare: inLoop.slice(n, s.loop.equipment.firstChute).map((seconds) => seconds / measured),
      stops: stops.slice(n, s.loop.equipment.firstChute),
      stoppedShare: stopped.slice(n, s.loop.equipment.firstChute).map((seconds) => seconds / measured),
    },
    modules: {
      handedOn: totals.handedOn,
      starvedShare: column((m) =>
        s.loop.equipment.startAt[m] === 0
          ? emptyCycles[m] / cycles[m]
          : waiting[m] / (inLoop[m] - stopped[m]),
      ),
      stoppedShare: column((m) => stopped[m] / measured),
      heldUpShare: column((m) => heldUp[m] / measured),
      pulledShare: column((m) => 1 - Math.min(1, inLoop[m] / measured)),
      pulls: totals.pulls,
      stops: stops.slice(0, n),
      returned: totals.returned,
      recirculated: totals.recirculated,
      leaks: totals.leaks,
      dropped: totals.dropped,
      spillsWhileStopped: totals.spillsWhileStopped,
      spillsOnBacklog: totals.spillsOnBacklog,
      spillsOnInflow: totals.spillsOnInflow,
      hoursWithSpill: column((m) =>
        countOnes(totals.moduleHourSpilled, m * totals.hours, (m + 1) * totals.hours),
      ),
      levelMean: column((m) => meanLevel(totals.levelTime[m], measured)),
      levelP50: column((m) => levelQuantile(totals.levelTime[m], measured, 0.5)),
      levelP95: column((m) => levelQuantile(totals.levelTime[m], measured, 0.95)),
      levelPeak: totals.levelPeak,
    },
    series: {
      passes: series.passes,
      spills: series.spills,
      stops: series.stops,
      busyMinders: series.busyMinders,
      waitingJobs: series.waitingJobs,
      stoppedModules: series.stoppedModules,
      heldUpModules: series.heldUpModules,
      pulledModules: series.pulledModules,
      places: series.places,
      levels: series.levels,
    },
  };
}

/** Books what has been going on at place m up to the end, as that of what stands there. */
function closePlace(s: LoopState, m: number): void {
  const { totals } = s;
  if (s.stopped[m] === 1) totals.stoppedSeconds[m] += s.loop.end - Math.max(s.stoppedFrom[m], totals.from);
  else if (s.phase[m] === WAITING) settleWaiting(s, m);
  else if (s.phase[m] === HELD_UP) settleHeldUp(s, m);
  totals.handOver(m, s.inPlace[m], s.loop.end - Math.max(s.inPlaceFrom[m], totals.from));
}

/**
 * Little's law (Little 1961, Operations Research 9, 383-387), checked in every run: L = lambda W with L the average
 * number of balls on the path, W their average time on it from counter to counter (loop) or from end to end (chain),
 * broken laps included, and lambda the rate at which they pass. It does not vanish exactly because some laps are cut
 * off by the beginning and the end.
 */
function littleResidual(s: LoopState, onPath: number, measured: number): number {
  const { totals } = s;
  const finished = s.loop.closed ? totals.passes : totals.pathVisits;
  return (onPath - (finished / measured) * (totals.pathSeconds / totals.pathVisits)) / onPath;
}

/** How long the stops that need the crew and are still open have lasted. */
function openStops(s: LoopState): number[] {
  const lasted: number[] = [];
  for (let m = 0; m < s.loop.modules; m++) {
    if (s.stopped[m] === 1 && needsCrew(s, m)) lasted.push(s.loop.end - s.stoppedFrom[m]);
  }
  return lasted;
}

function countOnes(bits: Uint8Array, from: number, to: number): number {
  let ones = 0;
  for (let i = from; i < to; i++) ones += bits[i];
  return ones;
}

function meanLevel(timeAt: Float64Array, measured: number): number {
  let area = 0;
  for (let level = 1; level < timeAt.length; level++) area += level * timeAt[level];
  return area / measured;
}

/** The lowest level at or below which the basket stood for at least this share of the time. */
function levelQuantile(timeAt: Float64Array, measured: number, share: number): number {
  // A hair of slack: the times add up to the whole only up to rounding.
  const wanted = share * measured * (1 - 1e-12);
  let time = 0;
  for (let level = 0; level < timeAt.length; level++) {
    time += timeAt[level];
    if (time >= wanted) return level;
  }
  return timeAt.length - 1;
}
