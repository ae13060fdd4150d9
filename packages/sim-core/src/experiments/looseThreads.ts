import { Worker } from 'node:worker_threads';

/** What a loose thread is told when it starts. */
export interface LooseThreadData {
  /** Address of the module whose default export does the work. */
  readonly module: string;
  /** What all tasks have in common. */
  readonly job: unknown;
}

/** What a loose thread sends back: what the work gave, or how it failed. */
export type LooseThreadReply = { readonly value: unknown } | { readonly failure: string };

interface Waiting {
  readonly resolve: (value: unknown) => void;
  readonly reject: (error: Error) => void;
}

/**
 * Worker threads that do not keep the program alive while they work: what a notebook needs, whose kernel ends by leaving
 * nothing to wait for. Each does one task at a time, and no more tasks than threads may be given at once.
 */
export class LooseThreads {
  private readonly idle: Worker[];
  private readonly all: readonly Worker[];
  private readonly waiting = new Map<Worker, Waiting>();
  private closed = false;

  constructor(size: number, module: URL, job?: unknown) {
    const workerData: LooseThreadData = { module: module.href, job };
    this.all = Array.from({ length: size }, () => this.start(workerData));
    this.idle = [...this.all];
  }

  private start(workerData: LooseThreadData): Worker {
    const worker = new Worker(new URL('./looseThread.js', import.meta.url), { workerData });
    const fail = (why: string): void => {
      this.waiting.get(worker)?.reject(new Error(why));
      this.waiting.delete(worker);
    };
    worker.on('message', (reply: LooseThreadReply) => {
      const task = this.waiting.get(worker);
      this.waiting.delete(worker);
      this.idle.push(worker);
      if ('failure' in reply) task?.reject(new Error(reply.failure));
      else task?.resolve(reply.value);
    });
    worker.on('error', (error) => fail(error instanceof Error ? error.message : String(error)));
    worker.on('exit', () => fail('a worker thread ended'));
    // Last of all: whoever listens for messages holds the program again.
    worker.unref();
    return worker;
  }

  /** Does one task; rejects when it fails or the threads are ended. */
  run(task: unknown): Promise<unknown> {
    return new Promise((resolve, reject) => {
      const worker = this.closed ? undefined : this.idle.pop();
      if (worker === undefined) {
        reject(new Error(this.closed ? 'the worker threads have ended' : 'all worker threads are busy'));
        return;
      }
      this.waiting.set(worker, { resolve, reject });
      worker.postMessage(task, []);
    });
  }

  /** Ends all threads at once, busy or not. */
  async destroy(): Promise<void> {
    this.closed = true;
    await Promise.all(this.all.map((worker) => worker.terminate()));
  }
}
