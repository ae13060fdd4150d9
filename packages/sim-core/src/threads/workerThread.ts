import { Worker } from 'node:worker_threads';
import type { Order, Reply } from './serve.js';

interface Waiting {
  readonly resolve: (value: unknown) => void;
  readonly reject: (error: Error) => void;
}

/** One worker thread, which does the tasks it is given one after the other, as the module it runs says (serve.ts). */
export class WorkerThread {
  /** Address of the module it runs. */
  readonly module: string;
  private readonly worker: Worker;
  private task: Waiting | undefined;
  private over = false;

  constructor(module: string) {
    this.module = module;
    // Of the options of a program that was typed as one, this one does not fit a thread, which runs a file.
    const isTyped = process.execArgv.some((option) => option.startsWith('--input-type'));
    this.worker = new Worker(new URL(module), isTyped ? { execArgv: [] } : {});
    this.worker.on('message', (reply: Reply) => {
      const { task } = this;
      this.task = undefined;
      if ('failure' in reply) task?.reject(new Error(reply.failure));
      else task?.resolve(reply.value);
    });
    this.worker.on('error', (error) => this.fail(error instanceof Error ? error.message : String(error)));
    this.worker.on('exit', () => this.fail('a worker thread ended'));
    // Last of all: whoever listens for messages holds the program again.
    this.worker.unref();
  }

  /** False for one that has ended or failed. */
  get alive(): boolean {
    return !this.over;
  }

  /**
   * Does a task; rejects when it fails or the thread is ended. The thread must have nothing to do.
   *
   * @param loose whether the program may end meanwhile
   */
  run(task: unknown, loose: boolean): Promise<unknown> {
    return new Promise((resolve, reject) => {
      this.task = { resolve, reject };
      if (!loose) this.worker.ref();
      this.send({ task });
    });
  }

  /** It does not hold the program any more. */
  letGo(): void {
    this.worker.unref();
  }

  /** It stands by from now on, and keeps nothing of what it has worked on. */
  rest(): void {
    this.send({ rest: true });
    this.letGo();
  }

  /** Ends it at once, busy or not. */
  async end(): Promise<void> {
    this.over = true;
    await this.worker.terminate();
  }

  private send(order: Order): void {
    this.worker.postMessage(order, []);
  }

  private fail(why: string): void {
    this.over = true;
    this.task?.reject(new Error(why));
    this.task = undefined;
  }
}
