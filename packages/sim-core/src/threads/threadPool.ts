import { keepThread, takeThread } from './keptThreads.js';
import type { WorkerThread } from './workerThread.js';

interface Queued<Task, Result> {
  readonly task: Task;
  readonly resolve: (value: Result) => void;
  readonly reject: (error: Error) => void;
}

/**
 * Worker threads that do tasks in the order in which they come, each one at a time.
 *
 * A thread that is done goes on with the next task before anybody looks at what the last one gave; so whoever keeps a few
 * tasks waiting does not keep threads waiting. After the pool is closed its threads stand by for the next pool
 * (keptThreads.ts). With `loose` the program may end while they work: what a notebook needs, whose kernel ends by leaving
 * nothing to wait for.
 */
export class ThreadPool<Task, Result> {
  readonly size: number;
  private readonly loose: boolean;
  private readonly module: string;
  private readonly idle: WorkerThread[] = [];
  private readonly busy = new Set<WorkerThread>();
  private readonly queue: Queued<Task, Result>[] = [];
  private closed = false;

  /**
   * @param size so many threads at most: each starts when there is a task for it
   * @param module what they run: it calls `serve`
   */
  constructor(size: number, module: URL, { loose }: { readonly loose: boolean }) {
    this.size = size;
    this.loose = loose;
    this.module = module.href;
  }

  /** Does one task; rejects when it fails or the pool is closed. */
  run(task: Task): Promise<Result> {
    if (this.closed) return Promise.reject(new Error('the worker threads have ended'));
    return new Promise((resolve, reject) => {
      this.queue.push({ task, resolve, reject });
      this.handOut();
    });
  }

  /** Ends what is going on, at once. */
  async close(): Promise<void> {
    this.closed = true;
    for (const { reject } of this.queue.splice(0)) reject(new Error('the worker threads have ended'));
    for (const thread of this.idle.splice(0)) keepThread(thread);
    await Promise.all([...this.busy].map((thread) => thread.end()));
  }

  private handOut(): void {
    while (this.queue.length > 0 && this.busy.size < this.size) {
      const thread = this.idle.pop();
      this.give(thread?.alive ? thread : takeThread(this.module), this.queue.shift() as Queued<Task, Result>);
    }
  }

  private give(thread: WorkerThread, { task, resolve, reject }: Queued<Task, Result>): void {
    this.busy.add(thread);
    const done = (): void => {
      this.busy.delete(thread);
      if (this.closed) return keepThread(thread);
      this.idle.push(thread);
      this.handOut();
      if (!this.busy.has(thread)) thread.letGo();
    };
    thread.run(task, this.loose).then(
      (value) => {
        done();
        resolve(value as Result);
      },
      (error: Error) => {
        done();
        reject(error);
      },
    );
  }
}
