import type { SampleSummary } from '../statistics/index.js';
import { settleAll } from './sampling.js';
import { type LoopState, WAITING } from './loopState.js';
import type { Series } from './series.js';

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
  readonly modules: {
    readonly handedOn: Float64Array;
    /** Continuous drive: share of cycles that were empty. Demand drive: share of unstopped time spent waiting. */
    readonly starvedShare: Float64Array;
    readonly stoppedShare: Float64Array;
    readonly stops: Float64Array;
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
    'passes' | 'spills' | 'stops' | 'busyMinders' | 'waitingJobs' | 'stoppedModules' | 'places' | 'levels'
  >;
}

/** Closes the books of a replication that has reached its end. */
export function replicationResult(s: LoopState, replication: number, events: number): ReplicationResult {
  settleAll(s);
  const { totals, modules: n, series } = s;
  const { laps } = totals;
  const measured = s.end - totals.from;
  for (let m = 0; m < n; m++) {
    if (s.stopped[m] === 1) totals.stoppedSeconds[m] += s.end - Math.max(s.stoppedFrom[m], totals.from);
    else if (s.phase[m] === WAITING)
      totals.waitingSeconds[m] += s.end - Math.max(s.waitingFrom[m], totals.from);
  }
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
    modules: {
      handedOn: totals.handedOn,
      starvedShare: column((m) =>
        s.startAt[m] === 0
          ? totals.emptyCycles[m] / totals.cycles[m]
          : totals.waitingSeconds[m] / (measured - totals.stoppedSeconds[m]),
      ),
      stoppedShare: column((m) => totals.stoppedSeconds[m] / measured),
      stops: totals.stops,
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
      places: series.places,
      levels: series.levels,
    },
  };
}

/**
 * Little's law (Little 1961, Operations Research 9, 383-387), checked in every run: L = lambda W with L the average
 * number of balls on the path, W their average time on it from counter to counter (loop) or from end to end (chain),
 * broken laps included, and lambda the rate at which they pass. It does not vanish exactly because some laps are cut
 * off by the beginning and the end.
 */
function littleResidual(s: LoopState, onPath: number, measured: number): number {
  const { totals } = s;
  const finished = s.closed ? totals.passes : totals.pathVisits;
  return (onPath - (finished / measured) * (totals.pathSeconds / totals.pathVisits)) / onPath;
}

/** How long the stops that need the crew and are still open have lasted. */
function openStops(s: LoopState): number[] {
  const lasted: number[] = [];
  for (let m = 0; m < s.modules; m++) {
    if (s.stopped[m] === 1 && s.stops.itself[s.cause[m]] < 0) lasted.push(s.end - s.stoppedFrom[m]);
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
