import type { ModuleCounted } from '../model/spec/index.js';
import { type CrowdingShown, isShown } from './fitCrowding.js';
import type { StopClock } from './fitOptions.js';
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
    stops: fit.causes.map(({ cause, clock, stops, over, crowding, clear }) => {
      const prior = pooled?.causes.find((one) => one.cause === cause)?.prior;
      return {
        cause,
        stops,
        over,
        // What a scenario does not say cannot be drawn for it.
        ...(isShown(crowding) ? crowdedCounts(crowding, unit(clock)) : {}),
        ...(prior === undefined ? {} : { prior }),
        clears: clear?.mean.n ?? 0,
      };
    }),
  };

  /** Running seconds of one of what a cause counts by. */
  function unit(clock: StopClock): number {
    if (clock === 'running' || cycle?.mean.value === null || cycle === null) return 1;
    return clock === 'per_cycle' ? cycle.mean.value : cycle.mean.value / (batch?.batch ?? 1);
  }

  function crowdedCounts(
    { crowded, free }: CrowdingShown,
    each: number,
  ): {
    stops: number;
    over: number;
    crowded: { stops: number; over: number };
  } {
    return {
      stops: free.events,
      over: free.exposure / each,
      crowded: { stops: crowded.events, over: crowded.exposure / each },
    };
  }
}
