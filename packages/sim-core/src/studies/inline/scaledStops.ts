import { stretched } from '../../distributions/index.js';
import type { ModuleSpec, StopTriggerSpec } from '../../model/spec/index.js';

/**
 * A module whose chance stops come `factor` times as often, by the same luck: every cause is scaled, however it is
 * triggered. Planned stops stay as they are.
 *
 * A chance p per cycle or ball becomes 1 - (1 - p)^factor, which is below 1 for every factor and just what the rate of the
 * exponential budget asks for (see MODEL.md); a time to the next stop is divided by the factor. With factor 0 chance stops
 * are gone.
 *
 * @param factor from 0, finite
 * @example
 * stopsTimes(exampleLoop.modules[0], 2).stops[0].trigger.time.mean // => 300
 */
export function stopsTimes(module: ModuleSpec, factor: number): ModuleSpec {
  if (factor === 1) return module;
  const stops = module.stops.flatMap((cause) => {
    const trigger = scaled(cause.trigger, factor);
    return trigger === undefined ? [] : [{ ...cause, trigger }];
  });
  return { ...module, stops };
}

/**
 * Whether a module has stops that come by chance.
 *
 * @example
 * stopsByChance(exampleLoop.modules[0]) // => true
 */
export function stopsByChance({ stops }: ModuleSpec): boolean {
  return stops.some(({ trigger }) => {
    const chance = trigger.kind === 'per_cycle' || trigger.kind === 'per_ball';
    return chance ? trigger.probability > 0 : trigger.kind !== 'at';
  });
}

/** Undefined when it never strikes. */
function scaled(trigger: StopTriggerSpec, factor: number): StopTriggerSpec | undefined {
  switch (trigger.kind) {
    case 'per_cycle':
    case 'per_ball':
      return factor === 0
        ? undefined
        : { kind: trigger.kind, probability: -Math.expm1(factor * Math.log1p(-trigger.probability)) };
    case 'running':
    case 'clock':
      return factor === 0 ? undefined : { kind: trigger.kind, time: stretched(trigger.time, 1 / factor) };
    case 'at':
      return trigger;
  }
}
