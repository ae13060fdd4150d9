import { drawParameters } from '../doubt/index.js';
import { simulate } from '../model/index.js';
import { readFlood } from './floodReading.js';
import { readLogged } from './loggedReading.js';
import { showValues } from './showValues.js';
import { readSplit } from './splitReading.js';
import { readStop } from './stopReading.js';
import type { StudyTask } from './studyPool.js';

/** Simulates one show and gives what is to be kept of it. */
export function simulateShow({
  spec: written,
  seed,
  replication,
  reading,
  doubt,
}: StudyTask): readonly number[] {
  const spec =
    doubt === undefined
      ? written
      : drawParameters(written, doubt.counted, { seed, draw: Math.floor(replication / doubt.showsPerDraw) });
  switch (reading?.kind) {
    case 'stop':
      return readStop(spec, reading, seed, replication);
    case 'flood':
      return readFlood(spec, reading, seed, replication);
    case 'logged':
      return readLogged(spec, reading, seed, replication);
    case 'split':
      return readSplit(spec, reading, seed, replication);
    default:
      return showValues(spec, reading, simulate(spec, { seed, replication }));
  }
}
