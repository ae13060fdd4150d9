import { availableParallelism } from 'node:os';
import { WorkerThread } from './workerThread.js';

/** How long a thread that has nothing to do is kept for the next study. */
const KEPT_MS = 120_000;

interface Kept {
  readonly thread: WorkerThread;
  readonly timer: NodeJS.Timeout;
}

/** Threads that have nothing to do, those that worked last at the end. */
const kept: Kept[] = [];

/**
 * A thread for this module: one that has worked before where there is one. It has loaded its code, and the engine has
 * compiled what it does most: a study is a third to half of a second shorter than with new threads.
 */
export function takeThread(module: string): WorkerThread {
  const i = kept.findLastIndex(({ thread }) => thread.alive && thread.module === module);
  if (i < 0) return new WorkerThread(module);
  const [{ thread, timer }] = kept.splice(i, 1) as [Kept];
  clearTimeout(timer);
  return thread;
}

/** Keeps a thread that has nothing to do for whoever asks next; of more than the machine has cores, the oldest end. */
export function keepThread(thread: WorkerThread): void {
  if (!thread.alive) return;
  const timer = setTimeout(() => {
    const i = kept.findIndex((one) => one.thread === thread);
    if (i >= 0) kept.splice(i, 1);
    void thread.end();
  }, KEPT_MS);
  // Neither the timer nor the thread holds the program.
  timer.unref();
  thread.rest();
  kept.push({ thread, timer });
  for (const old of kept.splice(0, kept.length - availableParallelism())) {
    clearTimeout(old.timer);
    void old.thread.end();
  }
}
