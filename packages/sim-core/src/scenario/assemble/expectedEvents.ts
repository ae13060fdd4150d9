import { buildDistribution, type DistributionSpec } from '../../distributions/index.js';
import type { LoopSpec, ModuleSpec, StopCauseSpec } from '../../model/spec/index.js';

/** A stop: its beginning, its being noticed, its end. */
const EVENTS_OF_STOP = 3;
/** A module pulled at a stop: the limit it outlasts, the swap, the mending, the swap back. */
const EVENTS_OF_PULL = 4;
/** A lever set back and forward again. */
const EVENTS_OF_LEVER = 2;

/**
 * A generous count of what one replication has to do: a cycle and a delivery for each cycle, some events for each stop and
 * what it leads to, and each ball that a module hands on.
 */
export function expectedEvents({ modules, spares = [], supply, show }: LoopSpec): number {
  const fed = supply.kind === 'feed' ? supply.balls / mean(supply.every) : Infinity;
  // Whatever may stand at a place counts with the most that any of it does.
  const places = modules.map((module) => [
    module,
    ...(module.pull?.spares ?? []).flatMap((s) => spares[s] ?? []),
  ]);
  const passing = places.reduce((flow, standing) => Math.min(flow, most(standing, ballsPerSecond)), fed);
  const perSecond = modules.reduce(
    (sum, { pull, lever, basket }, m) => {
      const standing = places[m] ?? [];
      const stops = most(standing, stopsPerSecond);
      const watched = (lever?.watches ?? []).reduce(
        (all, w) => all + most(places[w] ?? [], stopsPerSecond),
        0,
      );
      return (
        sum +
        2 * most(standing, ({ cycle }) => 1 / mean(cycle)) +
        (EVENTS_OF_STOP + (pull ? EVENTS_OF_PULL : 0)) * stops +
        EVENTS_OF_LEVER * watched +
        passing * (1 + (pull?.chute ? 1 : 0) + (basket.whenFull.kind === 'return' ? 1 : 0))
      );
    },
    Number.isFinite(fed) ? fed : 0,
  );
  return show.seconds * perSecond;
}

function most(standing: readonly ModuleSpec[], rate: (module: ModuleSpec) => number): number {
  return Math.max(0, ...standing.map(rate));
}

function ballsPerSecond({ batch, cycle }: ModuleSpec): number {
  return batch / mean(cycle);
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
    case 'clock':
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
