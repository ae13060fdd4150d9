import type { CauseCounted, ModuleCounted } from '../model/spec/index.js';
import { formatNumber } from '../units/index.js';
import type { StopClock } from './fitOptions.js';
import type { ModuleFit } from './moduleFit.js';
import type { ScenarioFigures } from './scenarioFigures.js';

/**
 * What figures were counted from, as the key `counted` of a scenario file.
 *
 * @param fit of the same module, which says by what each cause counts
 * @param causes those that the file has; others are left out
 * @example
 * const record = { module: 'lift', where: 'bench', watched: [{ from: 0, to: 60 }], batches: [], spills: [],
 *   stops: [{ cause: 'jam', from: 30, cleared: 40 }] };
 * const fit = fitModule(record);
 * countedFigures(toCounted(fit), fit, ['jam']) // => { stops: { jam: { stops: 1, in: '50 s', clears: 1 } } }
 */
export function countedFigures(
  { cycles, caught, stops }: ModuleCounted,
  fit: ModuleFit,
  causes: readonly string[],
): ScenarioFigures {
  const told = stops.filter(({ cause }) => causes.includes(cause));
  return {
    ...(cycles !== undefined && { cycles }),
    ...(caught !== undefined && { caught: { ...caught } }),
    ...(told.length > 0 && {
      stops: Object.fromEntries(
        told.map((one) => [
          one.cause,
          causeKeys(one, fit.causes.find(({ cause }) => cause === one.cause)?.clock ?? 'running'),
        ]),
      ),
    }),
  };
}

function causeKeys({ stops, over, crowded, prior, clears }: CauseCounted, clock: StopClock): ScenarioFigures {
  const so = (amount: number): ScenarioFigures =>
    clock === 'running'
      ? { in: `${formatNumber(amount, { digits: 6 })} s` }
      : { [clock === 'per_cycle' ? 'cycles' : 'balls']: Math.max(1, Math.round(amount)) };
  return {
    stops,
    ...so(over),
    clears,
    ...(crowded !== undefined && { crowded: { stops: crowded.stops, ...so(crowded.over) } }),
    ...(prior !== undefined && {
      prior: { stops: Number(prior.stops.toPrecision(5)), ...so(prior.over) },
    }),
  };
}
