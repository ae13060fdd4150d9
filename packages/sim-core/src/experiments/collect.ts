import { SimulationError } from '../errors/index.js';
import type { ReplicationResult } from '../model/index.js';
import type { RunSummary } from './runSummary.js';

/** Something that simulates replications by number, several at a time. */
export interface Simulators {
  /** How many it can run at a time. */
  readonly size: number;
  /** Runs one, or lets it wait until one of those before it is done. */
  run(replication: number): Promise<ReplicationResult>;
  /** Ends everything at once, finished or not. */
  close(): Promise<void>;
}

/** How replications are to be collected. */
export interface CollectOptions {
  readonly replications: number;
  readonly onProgress?: (progress: { readonly done: number; readonly asked: number }) => void;
  readonly signal?: AbortSignal;
}

/** How collecting ended. */
export interface Collected {
  /** Replications that were finished but came after a gap, so that they are not part of the summary. */
  readonly leftOut: number;
  /** Why not all replications were done; undefined when they were. */
  readonly stopped?: 'aborted' | Error;
}

/**
 * Keeps all simulators busy and adds their results to the summary in the order of the replications, whichever comes
 * first. Stops at the first failure or when the signal says so; what is finished stays in the summary.
 */
export async function collect(
  pool: Simulators,
  summary: RunSummary,
  options: CollectOptions,
): Promise<Collected> {
  const { replications, onProgress, signal } = options;
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
  /** Sees to one replication after another until nothing is left to do. */
  const keepBusy = async (): Promise<void> => {
    while (next < replications && stopped === undefined) {
      const replication = next++;
      try {
        take(await pool.run(replication));
      } catch (error) {
        stopped ??= asError(error, replication);
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
    // One more for each waits, so that a simulator need not wait until its result has been added.
    await Promise.all(Array.from({ length: 2 * pool.size }, keepBusy));
  } finally {
    signal?.removeEventListener('abort', abort);
    await pool.close();
  }
  // Told to stop when all was done already: nothing is missing.
  const isWhole = stopped === 'aborted' && summary.replications === replications;
  return { leftOut: waiting.size, ...(stopped !== undefined && !isWhole && { stopped }) };
}

function asError(error: unknown, replication: number): Error {
  if (error instanceof SimulationError) return error;
  return new SimulationError(error instanceof Error ? error.message : String(error), { replication });
}
