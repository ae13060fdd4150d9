import { currentCell } from '../display/index.js';
import { Stopped } from './stopped.js';

const running = new Set<AbortController>();
let othersAside: NodeJS.SignalsListener[] = [];
let stoppedCell: unknown;

function stopAll(): void {
  stoppedCell = currentCell();
  for (const controller of running) controller.abort();
}

/**
 * Does work that can be stopped by the interrupt button of a notebook, or Ctrl-C.
 *
 * While it goes on, the interrupt is ours alone: the kernel would end the cell at once, before what is finished could be
 * told. What comes after in the same cell is not begun.
 *
 * @throws Stopped when this cell was stopped already
 */
export async function interruptible<T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> {
  // The kernel starts a cell with a watch of its own on the interrupt. A listener that is added before it is over makes the
  // next interrupt end the kernel.
  await new Promise((resolve) => setImmediate(resolve));
  if (stoppedCell !== undefined && stoppedCell === currentCell()) throw new Stopped('Stopped.');
  const controller = new AbortController();
  // Never without a listener in between: then an interrupt would end the program.
  if (running.size === 0) {
    process.on('SIGINT', stopAll);
    othersAside = process.listeners('SIGINT').filter((listener) => listener !== stopAll);
    for (const listener of othersAside) process.off('SIGINT', listener);
  }
  running.add(controller);
  try {
    return await work(controller.signal);
  } finally {
    running.delete(controller);
    if (running.size === 0) {
      for (const listener of othersAside) process.on('SIGINT', listener);
      process.off('SIGINT', stopAll);
    }
  }
}
