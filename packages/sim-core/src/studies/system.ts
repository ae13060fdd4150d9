import { createHash } from 'node:crypto';
import type { Reading } from '../experiments/index.js';
import type { LoopSpec } from '../model/spec/index.js';

/** One of the loops that a question compares. */
export interface System {
  /** In words, for tables: "as it is", "without drunken-stairs". */
  readonly label: string;
  readonly spec: LoopSpec;
  /** What is read in its shows. @default the measures */
  readonly reading?: Reading;
  /** Names the spec and the reading: the same for the same loop, whatever it is called. */
  readonly key: string;
}

/**
 * A loop to be compared, with the key under which its shows are kept.
 *
 * @example
 * system('a', exampleLoop).key === system('b', { ...exampleLoop, name: 'another name' }).key // => true
 */
export function system(label: string, spec: LoopSpec, reading?: Reading): System {
  const { name: _name, ...rest } = spec;
  const what = reading === undefined ? rest : { ...rest, reading };
  const text = JSON.stringify(what, (_, value: unknown) => (value === Infinity ? 'unlimited' : value));
  const key = createHash('sha256').update(text).digest('hex').slice(0, 16);
  return { label, spec, ...(reading !== undefined && { reading }), key };
}
