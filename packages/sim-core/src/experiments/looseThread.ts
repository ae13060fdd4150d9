import { parentPort, workerData } from 'node:worker_threads';
import type { LooseThreadData, LooseThreadReply } from './looseThreads.js';

/* Runs in a worker thread of LooseThreads: does one task after the other. */

const { module } = workerData as LooseThreadData;
const loaded = import(module) as Promise<{ readonly default: (task: unknown) => unknown }>;

parentPort?.on('message', async (task: unknown) => {
  parentPort?.postMessage(await replyTo(task), []);
});

async function replyTo(task: unknown): Promise<LooseThreadReply> {
  try {
    return { value: (await loaded).default(task) };
  } catch (error) {
    return { failure: error instanceof Error ? error.message : String(error) };
  }
}
