import { countedFigures } from './countedFigures.js';
import { aboveFree, isShown } from './fitCrowding.js';
import type { ModuleFit } from './moduleFit.js';
import type { PooledModule } from './poolByDesign.js';
import { type ScenarioFigures, scenarioFigures } from './scenarioFigures.js';
import { toCounted } from './toCounted.js';

/**
 * All that logs tell of a module, as its keys in a scenario file: figures, and what they were counted from. Where copies of
 * its design were heard, its rates of stopping are those drawn to the family.
 *
 * @param pooled the same module with its family heard @default its own counts alone
 * @param keepRemedy causes whose clearing stays as the file has it, when none of their stops was seen
 * @param stays causes of which the file keeps all it has, because the log says too little (see `unseenCauses`)
 * @example
 * const record = { module: 'lift', where: 'bench', watched: [{ from: 0, to: 60 }], batches: [], spills: [],
 *   stops: [{ cause: 'jam', from: 30, cleared: 40 }] };
 * moduleFigures(fitModule(record)).counted // => { stops: { jam: { stops: 1, in: '50 s', clears: 1 } } }
 */
export function moduleFigures(
  fit: ModuleFit,
  pooled?: PooledModule,
  keepRemedy: readonly string[] = [],
  stays: readonly string[] = [],
): ScenarioFigures {
  const told = fit.causes.filter(({ cause }) => !stays.includes(cause));
  const heard = {
    ...fit,
    causes: pooled === undefined ? told : told.map((cause) => drawn(cause, pooled)),
  };
  const { stops, ...figures } = scenarioFigures(heard);
  const kept = new Set(
    fit.causes
      .filter(({ cause, stops: seen }) => seen === 0 && keepRemedy.includes(cause))
      .map(({ cause }) => cause),
  );
  const causes = Object.entries((stops ?? {}) as ScenarioFigures).map(([cause, keys]) => {
    const { crew, ...rest } = keys as ScenarioFigures;
    return [cause, crew === undefined || kept.has(cause) ? rest : { ...rest, crew }] as const;
  });
  const counts = toCounted(fit, pooled);
  const counted = countedFigures(
    // Where the clearing stays as the file has it, no clear time of the log is behind it.
    { ...counts, stops: counts.stops.map((one) => (kept.has(one.cause) ? { ...one, clears: 0 } : one)) },
    fit,
    causes.map(([cause]) => cause),
  );
  return {
    ...figures,
    ...(causes.length > 0 && { stops: Object.fromEntries(causes) }),
    ...(Object.keys(counted).length > 0 && { counted }),
  };
}

type Cause = ModuleFit['causes'][number];

/** A cause that stops by chance alone, at the rate that its own count and its family give. */
function drawn(cause: Cause, { causes }: PooledModule): Cause {
  const known = causes.find((one) => one.cause === cause.cause);
  const { trigger } = cause;
  if (known === undefined || trigger.kind !== 'running' || trigger.time.family !== 'exponential')
    return cause;
  const { crowding } = cause;
  const rarity = isShown(crowding) ? aboveFree(crowding) : 1;
  return {
    ...cause,
    trigger: { kind: 'running', time: { family: 'exponential', mean: rarity / known.pooled.mean } },
  };
}
