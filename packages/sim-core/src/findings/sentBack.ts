import type { ModuleEstimates, RunResult } from '../experiments/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { briefPhrase, KINDS } from './phrase.js';

/** A basket with this share of all spills is a place where the flood comes out. */
const NOTABLE = 0.1;

/** A basket that runs over because of what a lever or an overflow chute sends to it. */
export interface SentBackFinding {
  /** Id of the module whose basket runs over. */
  readonly at: string;
  readonly advice: string;
}

/**
 * Levers and overflow chutes that send balls back to a basket which then runs over itself: at most one of each kind, the
 * one whose basket spills most. A module that stands still spills for that reason, whatever is sent to it.
 *
 * @example
 * sentBack(exampleResult, exampleLoop) // => []
 */
export function sentBack(result: RunResult, spec: LoopSpec): SentBackFinding[] {
  const total = result.spills_per_hour.mean ?? 0;
  const spills = (module: ModuleEstimates): number => module.spills_per_hour.mean ?? 0;
  const floods = (module: ModuleEstimates): boolean =>
    total > 0 &&
    spills(module) >= NOTABLE * total &&
    (module.spills_by_cause_per_hour.inflow.mean ?? 0) > spills(module) / 2;
  const [lever] = result.modules
    .filter((module) => (module.recirculated_per_hour.mean ?? 0) > 0 && floods(module))
    .toSorted((a, b) => spills(b) - spills(a));
  const [chute] = result.modules
    .flatMap((from, m) => {
      const whenFull = spec.modules[m]?.basket.whenFull;
      const to = whenFull?.kind === 'return' ? result.modules[whenFull.to] : undefined;
      return to && (from.returned_per_hour.mean ?? 0) > 0 && floods(to) ? [{ from, to }] : [];
    })
    .toSorted((a, b) => spills(b.to) - spills(a.to));
  const perHour = (module: ModuleEstimates): string =>
    briefPhrase(module.spills_per_hour, KINDS.ballsPerHour);
  const levers = lever && {
    at: lever.id,
    advice: `The lever of ${lever.id} sends ${briefPhrase(lever.recirculated_per_hour, KINDS.ballsPerHour)} back into its own basket, and that basket runs over too (${perHour(lever)}): the flood only moves. Give ${lever.id} a bigger basket, or get to what it watches sooner.`,
  };
  const chutes = chute && {
    at: chute.to.id,
    advice: `The overflow chute of ${chute.from.id} brings ${briefPhrase(chute.from.returned_per_hour, KINDS.ballsPerHour)} to ${chute.to.id}, and the basket there runs over (${perHour(chute.to)}): the flood only moves. Lead the chute further back, or give ${chute.to.id} a bigger basket.`,
  };
  return [...(levers ? [levers] : []), ...(chutes ? [chutes] : [])];
}
