import { drawParameters } from '../doubt/index.js';
import { PreparedLoop, simulate } from '../model/index.js';
import { readFlood } from './floodReading.js';
import { readLogged } from './loggedReading.js';
import { showValues } from './showValues.js';
import { readSplit } from './splitReading.js';
import { readStop } from './stopReading.js';
import type { StudyTask } from './studyPool.js';

/**
 * Simulates one show and gives what is to be kept of it.
 *
 * @param known the loop of the task, prepared
 */
export function simulateShow(
  known: PreparedLoop,
  { seed, replication, reading, doubt }: Omit<StudyTask, 'spec'>,
): readonly number[] {
  const loop =
    doubt === undefined
      ? known
      : new PreparedLoop(
          drawParameters(known.spec, doubt.counted, {
            seed,
            draw: Math.floor(replication / doubt.showsPerDraw),
          }),
        );
  switch (reading?.kind) {
    case 'stop':
      return readStop(loop.spec, reading, seed, replication);
    case 'flood':
      return readFlood(loop, reading, seed, replication);
    case 'logged':
      return readLogged(loop, reading, seed, replication);
    case 'split':
      return readSplit(loop, reading, seed, replication);
    default:
      return showValues(loop.spec, reading, simulate(loop, { seed, replication }));
  }
}
