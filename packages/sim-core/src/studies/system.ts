import { createHash } from 'node:crypto';
import type { LoopSpec } from '../model/spec/index.js';

/** One of the loops that a question compares. */
export interface System {
  /** In words, for tables: "as it is", "without drunken-stairs". */
  readonly label: string;
  readonly spec: LoopSpec;
  /** Names the spec: the same for the same loop, whatever it is called. */
  readonly key: string;
  /** A module of the loop whose own stops are wanted too. */
  readonly watch?: string;
}

/**
 * A loop to be compared, with the key under which its shows are kept.
 *
 * @param watch a module of it whose own stops are wanted too
 * @example
 * system('a', exampleLoop).key === system('b', { ...exampleLoop, name: 'another name' }).key // => true
 */
export function system(label: string, spec: LoopSpec, watch?: string): System {
  const { name: _name, ...rest } = spec;
  const text = JSON.stringify(rest, (_, value: unknown) => (value === Infinity ? 'unlimited' : value));
  const hash = createHash('sha256').update(text);
  if (watch !== undefined) hash.update(`\nwatch ${watch}`);
  return { label, spec, key: hash.digest('hex').slice(0, 16), ...(watch !== undefined && { watch }) };
}
