import { buildDistribution } from '../../distributions/index.js';
import type { CauseCounted, LoopSpec, ModuleCounted, ModuleSpec } from '../../model/spec/index.js';

/**
 * The modules and spares of a loop that were counted, each with how long: the longest of its counts, seconds.
 *
 * @param counted those that are not in the loop are passed over
 * @example
 * countedModules(exampleLoop, [{ module: 'slow', cycles: 1800, stops: [] }]) // => [{ module: 'slow', counted_s: 1800 }]
 */
export function countedModules(
  { modules, spares }: LoopSpec,
  counted: readonly ModuleCounted[],
): { readonly module: string; readonly counted_s: number }[] {
  const all = [...modules, ...(spares ?? [])];
  return counted.flatMap((one) => {
    const module = all.find(({ id }) => id === one.module);
    return module === undefined ? [] : [{ module: module.id, counted_s: countedSeconds(module, one) }];
  });
}

/**
 * How long a module was counted, seconds: the longest of its counts.
 *
 * @example
 * countedSeconds(exampleLoop.modules[1], { module: 'slow', cycles: 1800, stops: [] }) // => 1800
 */
export function countedSeconds(
  module: ModuleSpec,
  { cycles = 0, caught, leaked, stops }: ModuleCounted,
): number {
  const cycle = buildDistribution(module.cycle).mean;
  const ball = cycle / module.batch;
  const secondsOf = ({ cause, over, crowded }: CauseCounted): number => {
    const kind = module.stops.find(({ id }) => id === cause)?.trigger.kind;
    const whole = over + (crowded?.over ?? 0);
    return kind === 'per_cycle' ? whole * cycle : kind === 'per_ball' ? whole * ball : whole;
  };
  return Math.max(
    cycles * cycle,
    (caught?.of ?? 0) * ball,
    (leaked?.of ?? 0) * ball,
    ...stops.map((one) => secondsOf(one)),
  );
}
