import { type Change, changeWords } from '../../changes/index.js';
import { shellWord } from '../shellWord.js';

/** A change as it can be typed into a shell: `--set 'crew.walk=10 s'`. */
export function typedChange(change: Change): string {
  return changeWords(change)
    .map((word) => (/^[\w./:=,-]+$/.test(word) ? word : shellWord(word)))
    .join(' ');
}
