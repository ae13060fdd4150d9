import { simulate } from '../model/index.js';
import { readFlood } from './floodReading.js';
import { showValues } from './showValues.js';
import { readSplit } from './splitReading.js';
import { readStop } from './stopReading.js';
import type { StudyTask } from './studyPool.js';

/** Runs in a worker thread: simulates one show and gives what is to be kept of it. */
export default function simulateShow({ spec, seed, replication, reading }: StudyTask): readonly number[] {
  switch (reading?.kind) {
    case 'stop':
      return readStop(spec, reading, seed, replication);
    case 'flood':
      return readFlood(spec, reading, seed, replication);
    case 'split':
      return readSplit(spec, reading, seed, replication);
    default:
      return showValues(spec, reading, simulate(spec, { seed, replication }));
  }
}
