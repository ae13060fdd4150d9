import { basename } from 'node:path';
import { TYPED } from '../load.js';
import type { Loop } from '../loop.js';

/** The name of its file as on the command line; of a loop that was typed in a cell its own name. */
export function labelOf({ origin: { file }, name, changes }: Loop): string {
  return [file === TYPED ? name : basename(file), ...changes].join(', ');
}
