import { PreparedLoop } from '../model/index.js';
import { simulateShow } from './studyShow.js';
import type { ShowSource } from './studyPool.js';

/**
 * Simulates shows in this thread, one after the other: for small studies, where starting worker threads would take longer.
 *
 * @example
 * (await showsHere().run({ spec: exampleLoop, seed: 1, replication: 0 })).length === MEASURES.length // => true
 */
export function showsHere(): ShowSource {
  return {
    size: 1,
    // Between two shows others get a turn, so that a study can be stopped.
    run: async (task) => {
      await new Promise((resolve) => setImmediate(resolve));
      return simulateShow(new PreparedLoop(task.spec), task);
    },
    close: () => Promise.resolve(),
  };
}
