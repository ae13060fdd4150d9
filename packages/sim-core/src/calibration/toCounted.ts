import type { ModuleCounted } from '../model/spec/index.js';
import type { ModuleFit } from './moduleFit.js';
import type { PooledModule } from './poolByDesign.js';

/**
 * What the figures of a fit were counted from, for questions that draw what so few counts leave open.
 *
 * @param pooled the same module with its family heard; its knowledge of each cause becomes the prior @default none
 * @example
 * const record = { module: 'lift', where: 'bench', watched: [{ from: 0, to: 60 }], batches: [], spills: [],
 *   stops: [{ cause: 'jam', from: 30, cleared: 40 }] };
 * toCounted(fitModule(record)) // => { module: 'lift', stops: [{ cause: 'jam', stops: 1, over: 50, clears: 1 }] }
 */
export function toCounted(fit: ModuleFit, pooled?: PooledModule): ModuleCounted {
  const { cycle, batch } = fit;
  return {
    module: fit.module,
    ...(cycle === null ? {} : { cycles: cycle.mean.n }),
    ...(batch?.catch?.balls ? { caught: { of: batch.catch.of, balls: batch.catch.balls } } : {}),
    stops: fit.causes.map(({ cause, stops, over, crowding, clear }) => {
      const prior = pooled?.causes.find((one) => one.cause === cause)?.prior;
      return {
        cause,
        stops,
        over,
        ...(crowding === null ? {} : crowdedCounts(crowding)),
        ...(prior === undefined ? {} : { prior }),
        clears: clear?.mean.n ?? 0,
      };
    }),
  };

  function crowdedCounts({ crowded, free }: NonNullable<(typeof fit.causes)[number]['crowding']>): {
    stops: number;
    over: number;
    crowded: { stops: number; over: number };
  } {
    return {
      stops: free.events,
      over: free.exposure,
      crowded: { stops: crowded.events, over: crowded.exposure },
    };
  }
}
