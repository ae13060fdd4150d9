import { parentPort } from 'node:worker_threads';

/** What a thread sends back: what the work gave, or how it failed. */
export type Reply = { readonly value: unknown } | { readonly failure: string };

/** Called by the module that a worker thread runs: does each task that comes with this function. */
export function serve(work: (task: unknown) => unknown): void {
  parentPort?.on('message', (task: unknown) => {
    let reply: Reply;
    try {
      reply = { value: work(task) };
    } catch (error) {
      reply = { failure: error instanceof Error ? error.message : String(error) };
    }
    parentPort?.postMessage(reply, []);
  });
}
