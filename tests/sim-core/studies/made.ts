import {
  MEASURES,
  type ShowSource,
  type StudyTask,
} from '../../../packages/sim-core/src/experiments/index.js';
import { stream } from '../../../packages/sim-core/src/random/index.js';

/** A source in which every measure is a number made up from the task; it counts its shows. */
export function made(value: (task: StudyTask) => number): ShowSource & { shows: number } {
  const source = {
    size: 2,
    shows: 0,
    run: (task: StudyTask) => {
      source.shows++;
      const found = value(task);
      // Shares lie between 0 and 1.
      const measures = MEASURES.map(({ kind }) =>
        kind === 'share' ? Math.min(1, Math.max(0, found)) : found,
      );
      // Every module with a cause of stopping has stopped once.
      const stops = task.spec.modules.map((module) => Math.min(1, module.stops.length));
      return Promise.resolve(task.reading === undefined ? measures : [...measures, ...stops]);
    },
    close: () => Promise.resolve(),
  };
  return source;
}

/** A uniform number of a replication and a purpose, the same for every system: its luck. */
export function luck(replication: number, purpose: string): number {
  return stream({ seed: 99, replication, place: null, purpose })();
}
