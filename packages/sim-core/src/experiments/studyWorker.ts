import { simulate } from '../model/index.js';
import { showValues } from './showValues.js';
import type { StudyTask } from './studyPool.js';

/** Runs in a worker thread: simulates one show and gives what is to be kept of it. */
export default function simulateShow({ spec, seed, replication, reading }: StudyTask): readonly number[] {
  return showValues(spec, reading, simulate(spec, { seed, replication }));
}
