import { readFlood } from './floodReading.js';
import type { LoopSpec } from '../model/spec/index.js';
import type { Reading } from './reading.js';
import { readStop } from './stopReading.js';

/** Simulates a show and reads it as asked. */
export function readShow(
  spec: LoopSpec,
  reading: Reading,
  seed: number,
  replication: number,
): readonly number[] {
  return reading.kind === 'stop'
    ? readStop(spec, reading, seed, replication)
    : readFlood(spec, reading, seed, replication);
}
