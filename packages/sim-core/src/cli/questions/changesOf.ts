import { type Change, parseChanges } from '../../changes/index.js';
import type { ChangeOptions } from './changeOptions.js';

/**
 * The changes that were typed, in their order.
 *
 * @throws ChangeError with every option that cannot be read
 */
export function changesOf(options: ChangeOptions): Change[] {
  const { set, swap, move, without, with: put, stopsOff, after, before } = options;
  const typed = [set, swap, move, without, put, stopsOff, after, before].flatMap((some) => some ?? []);
  return parseChanges(
    typed.toSorted((a, b) => a.turn - b.turn).map(({ option, value }) => ({ option, value })),
  );
}
