import {
  type MeasurePlan,
  type ReplicationResult,
  simulate,
} from '../../packages/sim-core/src/model/index.js';
import type { LoopSpec } from '../../packages/sim-core/src/model/spec/index.js';
import { CrewWatch, type CrewTrace, ModuleWatch, type ModuleTrace } from './trackers.js';

/** Of all reference runs. */
export const SEED = 1;

/**
 * What one replication says about a quantity: a total and what it is a total of (waits and their number, ball seconds
 * and seconds). The quantity is the ratio of the expected values.
 */
export type Reading = readonly [total: number, of: number];

export interface Estimate {
  readonly mean: number;
  readonly standardError: number;
}

/**
 * Ratio of the summed totals over independent replications, with the standard error of a ratio (Cochran 1977, Sampling
 * Techniques, 3rd ed., 6.4; from memory): r = sum y / sum x, variance of (y - r x) over n and the mean of x squared.
 *
 * The ratio is formed once, of sums over all replications: its bias is a smaller part of its standard error than the
 * standard error of the denominator is of the denominator, and that is below 2 % in all cases here.
 */
export function estimate(readings: readonly Reading[]): Estimate {
  const n = readings.length;
  let total = 0;
  let of = 0;
  for (const [y, x] of readings) {
    total += y;
    of += x;
  }
  const mean = total / of;
  let squares = 0;
  for (const [y, x] of readings) squares += (y - mean * x) ** 2;
  return { mean, standardError: Math.sqrt(squares / (n - 1) / n) / (of / n) };
}

/** One replication as the simulator reports it. */
export function run(spec: LoopSpec, replication: number, plan?: MeasurePlan): ReplicationResult {
  return simulate(spec, { seed: SEED, replication, ...(plan && { plan }) });
}

export interface WatchedRun {
  readonly result: ReplicationResult;
  readonly trace: ModuleTrace;
}

/** One replication with an eye on the first module. */
export function watch(spec: LoopSpec, replication: number, plan?: MeasurePlan): WatchedRun {
  const { supply, show, modules } = spec;
  const level = supply.kind === 'charge' ? (supply.placed[0] ?? 0) : 0;
  const continuous = modules[0]?.drive.kind === 'continuous';
  const trace = new ModuleWatch({ module: 0, continuous, from: show.warmUpSeconds, level });
  const observe = trace.observe.bind(trace);
  const result = simulate(spec, { seed: SEED, replication, observe, ...(plan && { plan }) });
  trace.settle(show.seconds);
  return { result, trace };
}

export interface CrewRun {
  readonly result: ReplicationResult;
  readonly crew: CrewTrace;
}

/** One replication with an eye on the crew. */
export function watchCrew(spec: LoopSpec, replication: number): CrewRun {
  const crew = new CrewWatch(spec.show.warmUpSeconds);
  const result = simulate(spec, { seed: SEED, replication, observe: crew.observe.bind(crew) });
  crew.settle(spec.show.seconds);
  return { result, crew };
}

/** A plan whose histogram has two bars, laps up to `seconds` and longer ones: an exact count of the tail. */
export function splitLapsAt(spec: LoopSpec, seconds: number): MeasurePlan {
  return { sliceEnds: [spec.show.seconds], lapBinSeconds: seconds, lapBins: 2 };
}

/* Readings of what the simulator reports. */

export const throughput = (r: ReplicationResult): Reading => [r.passes, r.measuredSeconds];

/** Balls on the path, time average: in a chain of one module, balls in the module. */
export const content = (r: ReplicationResult): Reading => [r.onPath, 1];

export const meanLap = (r: ReplicationResult): Reading => [r.laps.mean * r.laps.count, r.laps.count];

/** Mean square deviation of the laps from a given number; the reported spread has divisor n - 1. */
export function lapSquareAbout(r: ReplicationResult, centre: number): Reading {
  const { mean, sd, count } = r.laps;
  return [(count - 1) * sd ** 2 + count * (mean - centre) ** 2, count];
}

/** Share of laps in the second of two bars. */
export function longLaps(r: ReplicationResult): Reading {
  const [short = NaN, long = NaN] = r.lapHistogram;
  return [long, short + long];
}

export const level = (r: ReplicationResult, m = 0): Reading => [at(r.modules.levelMean, m), 1];

/** Share of time a mechanism on demand works, when it never stops. */
export const busy = (r: ReplicationResult, m = 0): Reading => [1 - at(r.modules.starvedShare, m), 1];

export const idle = (r: ReplicationResult, m = 0): Reading => [at(r.modules.starvedShare, m), 1];

/** Balls in basket and mechanism of a module that lifts one ball at a time and never stops. */
export function moduleContent(r: ReplicationResult, m = 0): Reading {
  return [level(r, m)[0] + busy(r, m)[0], 1];
}

export function spills(r: ReplicationResult, m = 0): number {
  const { spillsWhileStopped, spillsOnBacklog, spillsOnInflow } = r.modules;
  return at(spillsWhileStopped, m) + at(spillsOnBacklog, m) + at(spillsOnInflow, m);
}

export const heldUpShare = (r: ReplicationResult, m = 0): Reading => [at(r.modules.heldUpShare, m), 1];

export const stoppedShare = (r: ReplicationResult, m = 0): Reading => [at(r.modules.stoppedShare, m), 1];

/** Share of all time in which a module that is not stopped waits for balls. */
export function idleAndUp(r: ReplicationResult, m = 0): Reading {
  return [at(r.modules.starvedShare, m) * (1 - at(r.modules.stoppedShare, m)), 1];
}

export const stops = (r: ReplicationResult): number => sum(r.modules.stops);

export const stopsPerHour = (r: ReplicationResult): Reading => [stops(r), r.measuredSeconds / 3600];

/* Readings of lists. */

export const meanOf = (values: readonly number[]): Reading => [sum(values), values.length];

export function meanSquareAbout(values: readonly number[], centre: number): Reading {
  return [values.reduce((total, value) => total + (value - centre) ** 2, 0), values.length];
}

export function shareOf(values: readonly number[], which: (value: number) => boolean): Reading {
  return [values.reduce((count, value) => count + (which(value) ? 1 : 0), 0), values.length];
}

/** Share of time spent at the states for which `which` holds; `timeAt` lists the seconds by state. */
export function timeShare(timeAt: readonly number[], which: (state: number) => boolean): Reading {
  return timeAverage(timeAt, (state) => (which(state) ? 1 : 0));
}

/** Time average of a function of the state. */
export function timeAverage(timeAt: readonly number[], value: (state: number) => number): Reading {
  let total = 0;
  let seconds = 0;
  for (const [state, time = 0] of timeAt.entries()) {
    total += value(state) * time;
    seconds += time;
  }
  return [total, seconds];
}

export function sum(values: ArrayLike<number>): number {
  let total = 0;
  for (let i = 0; i < values.length; i++) total += values[i] ?? NaN;
  return total;
}

export function at(values: ArrayLike<number>, index: number): number {
  const value = values[index];
  if (value === undefined) throw new Error(`there is no number ${index} in a list of ${values.length}`);
  return value;
}
