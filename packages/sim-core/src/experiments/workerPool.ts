import { Tinypool } from 'tinypool';
import type { Simulators } from './collect.js';
import type { MeasurePlan, ReplicationResult } from '../model/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { LooseThreads } from './looseThreads.js';

/** What every worker of a pool works on. */
export interface WorkerJob {
  readonly spec: LoopSpec;
  readonly plan: MeasurePlan;
  readonly seed: number;
}

/**
 * Worker threads that simulate replications of one scenario. Workers get plain data and give plain data back; nothing is
 * shared. The only place in this package that starts threads.
 */
export class WorkerPool implements Simulators {
  readonly size: number;
  private readonly pool: Tinypool | LooseThreads;
  private closing: Promise<void> | undefined;

  constructor(size: number, job: WorkerJob, { loose = false }: { readonly loose?: boolean } = {}) {
    this.size = size;
    const worker = new URL('./replicationWorker.js', import.meta.url);
    this.pool = loose
      ? new LooseThreads(size, worker, job)
      : new Tinypool({
          filename: worker.href,
          minThreads: size,
          maxThreads: size,
          runtime: 'worker_threads',
          workerData: job,
        });
  }

  /** Simulates one replication; rejects when it fails or the pool is closed. */
  run(replication: number): Promise<ReplicationResult> {
    return this.pool.run(replication) as Promise<ReplicationResult>;
  }

  /** Ends all threads at once, busy or not. */
  close(): Promise<void> {
    this.closing ??= this.pool.destroy();
    return this.closing;
  }
}
