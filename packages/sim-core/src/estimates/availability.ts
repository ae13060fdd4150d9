import { buildDistribution } from '../distributions/index.js';
import type { ModuleSpec, RemedySpec, StopTriggerSpec } from '../model/spec/index.js';

/** How often and how long a module stops when it always has balls and a minder is always free. */
export interface Availability {
  /** Share of time running: 1 / (1 + stops per running second x mean seconds stopped). */
  readonly availability: number;
  /** Stops per hour on the clock. */
  readonly stopsPerHour: number;
  /** Mean time from stop to cleared, seconds; 0 when it never stops. */
  readonly meanStopSeconds: number;
  /** Minders its stops keep busy on average: stops per second x (walk + clear). */
  readonly mindersBusy: number;
}

/**
 * Long-run availability of a module that is never starved, with a free minder for every stop and an uncrowded basket.
 *
 * With h_i stops of cause i per second of running and d_i the mean length of one: A = 1 / (1 + sum h_i d_i)
 * (renewal-reward; Buzacott & Shanthikumar 1993, Stochastic Models of Manufacturing Systems, from memory). Planned stops
 * are left out.
 *
 * @example
 * moduleAvailability(exampleLoop.modules[0]).availability.toFixed(4) // => '0.9524'
 */
export function moduleAvailability(module: ModuleSpec): Availability {
  const cycle = buildDistribution(module.cycle).mean;
  let stops = 0;
  let stopped = 0;
  let work = 0;
  for (const { trigger, remedy } of module.stops) {
    const perSecond = stopsPerRunningSecond(trigger, module.batch, cycle);
    stops += perSecond;
    stopped += perSecond * meanStop(remedy);
    work += perSecond * meanWork(remedy);
  }
  const availability = 1 / (1 + stopped);
  return {
    availability,
    stopsPerHour: 3600 * stops * availability,
    meanStopSeconds: stops > 0 ? stopped / stops : 0,
    mindersBusy: work * availability,
  };
}

/** A module that always has balls picks a full batch in every cycle. */
function stopsPerRunningSecond(trigger: StopTriggerSpec, batch: number, cycleSeconds: number): number {
  switch (trigger.kind) {
    case 'per_cycle':
      return trigger.probability / cycleSeconds;
    case 'per_ball':
      return (trigger.probability * batch) / cycleSeconds;
    // It never waits for balls here, so that time on the clock and running time pass alike between its stops.
    case 'running':
    case 'clock':
      return 1 / buildDistribution(trigger.time).mean;
    case 'at':
      return 0;
  }
}

function meanStop(remedy: RemedySpec): number {
  if (remedy.kind === 'itself') return buildDistribution(remedy.time).mean;
  return buildDistribution(remedy.notice).mean + meanWork(remedy);
}

/** Seconds a minder is busy with it. */
function meanWork(remedy: RemedySpec): number {
  if (remedy.kind === 'itself') return 0;
  return buildDistribution(remedy.walk).mean + buildDistribution(remedy.clear).mean;
}
