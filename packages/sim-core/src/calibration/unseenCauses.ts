import { buildDistribution } from '../distributions/index.js';
import type { ModuleSpec, StopTriggerSpec } from '../model/spec/index.js';
import type { CauseFit } from './fitCause.js';
import type { ModuleFit } from './moduleFit.js';
import type { PooledModule } from './poolByDesign.js';

/** A cause of stopping that a scenario gives a module, and that nobody saw in its logs. */
export interface UnseenCause {
  readonly cause: string;
  /** Stops for each second of running, cycle or ball, as the log counts, by the figure of the scenario. */
  readonly rate: number;
  /** The chance to see none in a log as long as this, if that figure is right. */
  readonly chanceOfNone: number;
  /** Whether copies of its design were heard, which say more than this log alone. */
  readonly heard: boolean;
  /** Whether the log says too little to speak against the figure, which then stays. */
  readonly stays: boolean;
}

/**
 * What logs without a stop of a cause say of the figure that a scenario has for it: none is no sign against it as long as
 * the figure lies within the exact limits of the count, that is, while the chance to see none by that figure, exp(-rate x
 * time), is not below 1 - confidence. Where copies of its design were heard, these say more, and the figure does not stay.
 *
 * @param module as the scenario has it
 * @param pooled the same module with its family heard @default none
 * @example
 * const record = { module: 'slow', where: 'bench', watched: [{ from: 0, to: 600 }], batches: [], spills: [], stops: [] };
 * const fit = fitModule(record, { causes: ['jam'] });
 * const [jam] = unseenCauses(fit, exampleLoop.modules[1]); // one stop in 600 s of running
 * [jam.chanceOfNone.toFixed(3), jam.stays] // => ['0.368', true]
 */
export function unseenCauses(fit: ModuleFit, module: ModuleSpec, pooled?: PooledModule): UnseenCause[] {
  return fit.causes.flatMap((cause): UnseenCause[] => {
    const trigger = module.stops.find(({ id }) => id === cause.cause)?.trigger;
    if (cause.stops > 0 || trigger === undefined || trigger.kind === 'at') return [];
    const rate = rateOf(trigger, cause.clock, module);
    const heard = pooled?.causes.some((one) => one.cause === cause.cause) === true;
    return [
      {
        cause: cause.cause,
        rate,
        chanceOfNone: Math.exp(-rate * cause.over),
        heard,
        stays: !heard && rate <= cause.exact.high,
      },
    ];
  });
}

/** Of a trigger, in stops for each unit of a clock; a clock that runs while the module waits counts as one that does not. */
function rateOf(
  trigger: Exclude<StopTriggerSpec, { kind: 'at' }>,
  clock: CauseFit['clock'],
  { cycle, batch }: ModuleSpec,
): number {
  const cycleSeconds = buildDistribution(cycle).mean;
  const perCycle =
    trigger.kind === 'per_cycle'
      ? trigger.probability
      : trigger.kind === 'per_ball'
        ? trigger.probability * batch
        : cycleSeconds / buildDistribution(trigger.time).mean;
  return clock === 'running' ? perCycle / cycleSeconds : clock === 'per_cycle' ? perCycle : perCycle / batch;
}
