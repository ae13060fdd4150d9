import { createHash } from 'node:crypto';
import type { Doubt, Reading } from '../experiments/index.js';
import type { LoopSpec } from '../model/spec/index.js';

/** One of the loops that a question compares. */
export interface System {
  /** In words, for tables: "as it is", "without drunken-stairs". */
  readonly label: string;
  readonly spec: LoopSpec;
  /** What is kept of its shows besides the measures. */
  readonly reading?: Reading;
  /** What its parameters are drawn from; as they stand in the spec when absent. */
  readonly doubt?: Doubt;
  /** Names the spec, the reading and the doubt: the same for the same loop, whatever it is called. */
  readonly key: string;
}

/**
 * A loop to be compared, with the key under which its shows are kept.
 *
 * @example
 * system('a', exampleLoop).key === system('b', { ...exampleLoop, name: 'another name' }).key // => true
 */
export function system(label: string, spec: LoopSpec, reading?: Reading, doubt?: Doubt): System {
  const { name: _name, ...rest } = spec;
  const what = { ...rest, ...(reading !== undefined && { reading }), ...(doubt !== undefined && { doubt }) };
  const text = JSON.stringify(what, (_, value: unknown) => (value === Infinity ? 'unlimited' : value));
  const key = createHash('sha256').update(text).digest('hex').slice(0, 16);
  return {
    label,
    spec,
    key,
    ...(reading !== undefined && { reading }),
    ...(doubt !== undefined && { doubt }),
  };
}
