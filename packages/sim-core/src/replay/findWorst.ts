import { collect, type CollectOptions, type Simulators } from '../experiments/collect.js';
import { RunSummary } from '../experiments/index.js';
import { WorkerPool } from '../experiments/workerPool.js';
import { checkSpec, measurePlan } from '../model/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { type FigureName, FIGURES } from './figure.js';
import { worstOf, type WorstShow } from './worstShow.js';

/** How the worst of many shows is looked for. */
export interface FindWorstOptions extends CollectOptions {
  readonly seed: number;
  readonly workers: number;
  readonly figure: FigureName;
  /** Whether the program may end while shows are simulated, as in a notebook. @default false */
  readonly loose?: boolean;
}

/** How the search ended. */
export interface FoundWorst {
  /** Undefined when no show was finished. */
  readonly worst: WorstShow | undefined;
  /** Why not all shows were done; undefined when they were. */
  readonly stopped?: 'aborted' | Error;
}

/**
 * Simulates many shows in worker threads and finds the worst by a figure. It does not depend on the number of workers.
 *
 * @throws ParameterError when the spec or an option cannot be used
 * @example
 * (await findWorst(exampleLoop, { figure: 'stops', seed: 1, replications: 2, workers: 1 })).worst.shows // => 2
 */
export async function findWorst(spec: LoopSpec, options: FindWorstOptions): Promise<FoundWorst> {
  const { seed, workers, figure, replications, loose = false } = options;
  checkSpec(spec);
  const plan = measurePlan(spec);
  const pool = new WorkerPool(Math.min(workers, replications), { spec, plan, seed }, { loose });
  const values = new Map<number, number>();
  const noting: Simulators = {
    size: pool.size,
    run: async (replication) => {
      const result = await pool.run(replication);
      values.set(replication, FIGURES[figure].of(result));
      return result;
    },
    close: () => pool.close(),
  };
  // Counts the shows from number 0 up to the first that is missing: only those are compared.
  const finished = new RunSummary(spec, plan);
  const { stopped } = await collect(noting, finished, options);
  const compared = Array.from({ length: finished.replications }, (_, i) => values.get(i) ?? NaN);
  return {
    worst: worstOf(compared, figure),
    ...(stopped !== undefined && { stopped }),
  };
}
