import { simulate } from '../model/index.js';
import { showValues } from './showValues.js';
import type { StudyTask } from './studyPool.js';

/** Runs in a worker thread: simulates one show and gives the values of all measures, in their order. */
export default function simulateShow(task: StudyTask): readonly number[] {
  const { spec, seed, replication } = task;
  return showValues(task, simulate(spec, { seed, replication }));
}
