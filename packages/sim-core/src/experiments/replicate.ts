import { requireParameter, SimulationError } from '../errors/index.js';
import { type MeasurePlan, measurePlan, type ReplicationResult } from '../model/index.js';
import { checkSpec } from '../model/checkSpec.js';
import type { LoopSpec } from '../model/spec/index.js';

import { RunSummary } from './runSummary.js';
import { WorkerPool } from './workerPool.js';

/** How a study is to be run. */
export interface ReplicateOptions {
  /** Whole number from 0 to 2^53 - 1. */
  readonly seed: number;
  /** Number of replications, from 1. */
  readonly replications: number;
  /** Worker threads, from 1. @default 1 */
  readonly workers?: number;
  /** Called after each replication, in order. */
  readonly onProgress?: (progress: { readonly done: number; readonly asked: number }) => void;
  /** Stops the study: what is finished is kept. */
  readonly signal?: AbortSignal;
}

/** What a study came to. */
export interface ReplicateOutcome {
  readonly summary: RunSummary;
  readonly plan: MeasurePlan;
  /** Replications that were finished but came after a gap, so that they are not part of the summary. */
  readonly leftOut: number;
  /** Why not all replications were done; undefined when they were. */
  readonly stopped?: 'aborted' | Error;
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
export async function replicate(spec: LoopSpec, options: ReplicateOptions): Promise<ReplicateOutcome> {
  const { seed, replications, workers = 1, onProgress, signal } = options;
  const check: typeof requireParameter = requireParameter;
  check(
    Number.isSafeInteger(seed) && seed >= 0,
    'replicate',
    'seed',
    seed,
    'a whole number from 0 to 2^53 - 1',
  );
  check(
    Number.isSafeInteger(replications) && replications >= 1,
    'replicate',
    'replications',
    replications,
    'a whole number from 1',
  );
  check(
    Number.isSafeInteger(workers) && workers >= 1,
    'replicate',
    'workers',
    workers,
    'a whole number from 1',
  );
  checkSpec(spec);
  const plan = measurePlan(spec);
  const summary = new RunSummary(spec, plan);
  const pool = new WorkerPool(Math.min(workers, replications), { spec, plan, seed });
  const waiting = new Map<number, ReplicationResult>();
  let stopped: 'aborted' | Error | undefined;
  let next = 0;

  const take = (result: ReplicationResult): void => {
    waiting.set(result.replication, result);
    for (let ready = waiting.get(summary.replications); ready; ready = waiting.get(summary.replications)) {
      waiting.delete(summary.replications);
      summary.add(ready);
      onProgress?.({ done: summary.replications, asked: replications });
    }
  };
  /** Keeps one worker busy until nothing is left to do. */
  const keepBusy = async (): Promise<void> => {
    while (next < replications && stopped === undefined) {
      const replication = next++;
      try {
        take(await pool.run(replication));
      } catch (error) {
        stopped ??= signal?.aborted ? 'aborted' : asError(error, replication);
      }
    }
  };
  const abort = (): void => {
    stopped ??= 'aborted';
    void pool.close();
  };
  signal?.addEventListener('abort', abort, { once: true });
  if (signal?.aborted) abort();
  try {
    await Promise.all(Array.from({ length: pool.size }, keepBusy));
  } finally {
    signal?.removeEventListener('abort', abort);
    await pool.close();
  }
  return { summary, plan, leftOut: waiting.size, ...(stopped !== undefined && { stopped }) };
}

function asError(error: unknown, replication: number): Error {
  if (error instanceof Error) return error;
  return new SimulationError(String(error), { replication });
}
