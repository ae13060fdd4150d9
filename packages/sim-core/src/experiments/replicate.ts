import { requireParameter } from '../errors/index.js';
import { type MeasurePlan, PreparedLoop } from '../model/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { collect, type Collected, type CollectOptions } from './collect.js';
import { requireCount } from './requireCount.js';
import { RunSummary } from './runSummary.js';
import { WorkerPool } from './workerPool.js';

/** How a study is to be run. */
export interface ReplicateOptions extends CollectOptions {
  /** Whole number from 0 to 2^53 - 1. */
  readonly seed: number;
  /** Worker threads, from 1. @default 1 */
  readonly workers?: number;
  /** Whether the program may end while shows are simulated, as in a notebook. @default false */
  readonly loose?: boolean;
}

/** What a study came to. */
export interface ReplicateOutcome extends Collected {
  readonly summary: RunSummary;
  readonly plan: MeasurePlan;
}

/**
 * Runs independent replications of a show in worker threads and adds them up.
 *
 * Replications are added in their order, whichever finishes first, so that the result is the same to the last bit for
 * any number of workers. When the study is stopped, by the signal or by a failure, the summary holds the replications
 * from 0 up to the first that is missing: the same as a study of so many replications.
 *
 * @throws ParameterError when the spec or an option cannot be used
 * @example
 * (await replicate(exampleLoop, { seed: 1, replications: 2 })).summary.replications // => 2
 */
export async function replicate(given: LoopSpec, options: ReplicateOptions): Promise<ReplicateOutcome> {
  const { seed, replications, workers = 1, loose = false } = options;
  requireParameter(
    Number.isSafeInteger(seed) && seed >= 0,
    'replicate',
    'seed',
    seed,
    'a whole number from 0 to 2^53 - 1',
  );
  requireCount('replicate', 'replications', replications);
  requireCount('replicate', 'workers', workers);
  // Checked, and a copy: the summary must be of the loop that was simulated, whatever its owner does with it meanwhile.
  const { spec, plan } = new PreparedLoop(given);
  const summary = new RunSummary(spec, plan);
  const pool = new WorkerPool(Math.min(workers, replications), { spec, plan, seed }, { loose });
  return { summary, plan, ...(await collect(pool, summary, options)) };
}
