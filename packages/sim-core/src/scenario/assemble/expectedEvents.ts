import { buildDistribution, type DistributionSpec } from '../../distributions/index.js';
import type { LoopSpec, ModuleSpec, StopCauseSpec } from '../../model/spec/index.js';

/**
 * A generous count of what one replication has to do: a cycle and a delivery for each cycle, three events for each stop,
 * and each ball that a module hands on.
 */
export function expectedEvents({ modules, supply, show }: LoopSpec): number {
  const fed = supply.kind === 'feed' ? supply.balls / mean(supply.every) : Infinity;
  const passing = modules.reduce((flow, { batch, cycle }) => Math.min(flow, batch / mean(cycle)), fed);
  const perSecond = modules.reduce(
    (sum, module) => sum + 2 / mean(module.cycle) + 3 * stopsPerSecond(module) + passing,
    Number.isFinite(fed) ? fed : 0,
  );
  return show.seconds * perSecond;
}

/** Stops a second when the module always has balls, its basket is always crowded and a minder is always free. */
function stopsPerSecond({ stops, batch, cycle }: ModuleSpec): number {
  const rates = stops.map((cause) => ({ rate: strikesPerSecond(cause, batch, mean(cycle)), cause }));
  const all = rates.reduce((sum, { rate }) => sum + rate, 0);
  const stopped = rates.reduce((sum, { rate, cause }) => sum + rate * stopSeconds(cause), 0);
  return all / (1 + stopped);
}

function strikesPerSecond({ trigger, crowded }: StopCauseSpec, batch: number, cycleSeconds: number): number {
  const times = Math.max(1, crowded?.times ?? 1);
  switch (trigger.kind) {
    case 'per_cycle':
      return Math.min(1, times * trigger.probability) / cycleSeconds;
    case 'per_ball':
      return Math.min(1, times * trigger.probability * batch) / cycleSeconds;
    case 'running':
      return times / mean(trigger.time);
    case 'at':
      return 0;
  }
}

function stopSeconds({ remedy }: StopCauseSpec): number {
  return remedy.kind === 'itself'
    ? mean(remedy.time)
    : mean(remedy.notice) + mean(remedy.walk) + mean(remedy.clear);
}

function mean(time: DistributionSpec): number {
  return buildDistribution(time).mean;
}
