import type { LoopSpec } from '../model/spec/index.js';
import { loggedRowLength } from './loggedReading.js';
import { MEASURES } from './measures.js';
import type { Reading } from './reading.js';
import { WATCHED } from './showValues.js';
import { SPLIT_FIGURES } from './splitReading.js';
import { stopRowFits } from './stopShow.js';

/**
 * Whether a row of values, as from a file, can be that of a show: whether it has as many values as the reading gives. Those of
 * a stop say themselves how long their lists are.
 *
 * @param reading what is read in the show; undefined for the measures alone
 * @example
 * rowFits(exampleLoop, undefined, MEASURES.map(() => 0)) // => true
 */
export function rowFits(spec: LoopSpec, reading: Reading | undefined, values: readonly number[]): boolean {
  switch (reading?.kind) {
    case undefined:
      return values.length === MEASURES.length;
    case 'stops':
      return values.length === MEASURES.length + spec.modules.length;
    case 'watch':
      return values.length === MEASURES.length + WATCHED.length;
    case 'flood':
      return values.length === reading.moments * spec.modules.length;
    case 'logged':
      return values.length === loggedRowLength(spec, reading);
    case 'split':
      return values.length > SPLIT_FIGURES;
    case 'stop':
      return stopRowFits(values);
  }
}
