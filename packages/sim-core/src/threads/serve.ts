import { parentPort } from 'node:worker_threads';

/** What a thread sends back: what the work gave, or how it failed. */
export type Reply = { readonly value: unknown } | { readonly failure: string };

/** What a thread is sent: a task, or word that it stands by from now on. */
export type Order = { readonly task: unknown } | { readonly rest: true };

/**
 * Called by the module that a worker thread runs.
 *
 * @param work does a task
 * @param rest forgets what nobody will ask for again
 */
export function serve(work: (task: unknown) => unknown, rest: () => void = () => undefined): void {
  parentPort?.on('message', (order: Order) => {
    if (!('task' in order)) return rest();
    let reply: Reply;
    try {
      reply = { value: work(order.task) };
    } catch (error) {
      reply = { failure: error instanceof Error ? error.message : String(error) };
    }
    parentPort?.postMessage(reply, []);
  });
}
