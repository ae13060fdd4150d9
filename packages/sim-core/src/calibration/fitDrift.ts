import type { ModuleRecord } from '../logs/index.js';
import { eventTrend, type EventTrend, rankTrend, type RankTrend } from '../statistics/index.js';
import type { CycleFit } from './fitCycle.js';
import { runningClock, runningTime } from './runningTime.js';

/** Does it change while it is watched, as it warms? */
export interface DriftFit {
  /** Stops, over running time since the beginning of each record; null with fewer than two. */
  readonly stops: EventTrend | null;
  /** Single cycle times; null with too few. */
  readonly cycles: RankTrend | null;
  /** Change of the cycle time in an hour, as a share of its mean; null with too few. */
  readonly cyclePerHour: number | null;
}

/** Looks for a trend within the records: each begins anew, as a module does that has cooled overnight. */
export function fitDrift(records: readonly ModuleRecord[], cycle: CycleFit | null): DriftFit {
  const watched = records.map((record) => {
    const { ran, runningSeconds } = runningTime(record);
    const ranBy = runningClock(ran);
    const times = record.stops
      // Sums of the same stretches in another order may differ in the last digit.
      .map(({ from }) => Math.min(ranBy(from), runningSeconds))
      .filter((time) => time > 0);
    return { times, until: runningSeconds };
  });
  const cycles = cycle === null ? null : rankTrend(cycle.gaps.single);
  const mean = cycle?.mean.value ?? null;
  return {
    stops: eventTrend(watched.filter(({ until }) => until > 0)),
    cycles,
    cyclePerHour: cycles === null || mean === null ? null : (cycles.slope * 3600) / mean,
  };
}
