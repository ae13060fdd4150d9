import { simulate } from '../model/index.js';
import { MEASURES } from './measures.js';
import { readShow } from './readShow.js';
import type { StudyTask } from './studyPool.js';

/** Runs in a worker thread: simulates one show and gives the values of all measures, in their order, or another reading. */
export default function simulateShow({ spec, seed, replication, reading }: StudyTask): readonly number[] {
  if (reading !== undefined) return readShow(spec, reading, seed, replication);
  const result = simulate(spec, { seed, replication });
  return MEASURES.map(({ read }) => read(result));
}
