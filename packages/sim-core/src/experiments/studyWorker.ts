import { simulate } from '../model/index.js';
import { MEASURES } from './measures.js';
import type { StudyTask } from './studyPool.js';

/** Runs in a worker thread: simulates one show and gives the values of all measures, in their order. */
export default function simulateShow({ spec, seed, replication }: StudyTask): readonly number[] {
  const result = simulate(spec, { seed, replication });
  return MEASURES.map(({ read }) => read(result));
}
