import { workerData } from 'node:worker_threads';
import { Tinypool } from 'tinypool';
import { type ReplicationResult, simulate } from '../model/index.js';
import type { LooseThreadData } from './looseThreads.js';
import type { WorkerJob } from './workerPool.js';

const { spec, plan, seed } = (
  Tinypool.isWorkerThread ? Tinypool.workerData : (workerData as LooseThreadData).job
) as WorkerJob;

/** Runs in a worker thread: simulates one replication of the scenario the pool was made for. */
export default function simulateReplication(replication: number): ReplicationResult {
  return simulate(spec, { seed, replication, plan });
}
