import type { ReplicationResult } from '../model/index.js';
import { pack, type Parcel, ThreadPool } from '../threads/index.js';
import type { Simulators } from './collect.js';
import type { ReplicationJob, SimulationTask } from './simulationWorker.js';
import { SIMULATION_WORKER } from './simulationThreads.js';

/**
 * Worker threads that simulate replications of one scenario. Workers get plain data and give plain data back; nothing is
 * shared that anybody changes.
 */
export class WorkerPool implements Simulators {
  readonly size: number;
  private readonly pool: ThreadPool<SimulationTask, ReplicationResult>;
  private readonly job: Parcel;

  constructor(size: number, job: ReplicationJob, { loose = false }: { readonly loose?: boolean } = {}) {
    this.size = size;
    this.job = pack(job);
    this.pool = new ThreadPool(size, SIMULATION_WORKER, { loose });
  }

  /** Simulates one replication; rejects when it fails or the pool is closed. */
  run(replication: number): Promise<ReplicationResult> {
    return this.pool.run({ kind: 'replication', job: this.job, replication });
  }

  /** Ends what is going on, at once. */
  close(): Promise<void> {
    return this.pool.close();
  }
}
