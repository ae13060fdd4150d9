import { requireParameter } from '../errors/index.js';

/** Where a stream of random numbers belongs; each combination has a stream of its own. */
export interface StreamAddress {
  /** Seed of the whole study: a whole number from 0 to 2^53 - 1. */
  readonly seed: number;
  /** Number of the replication, from 0. */
  readonly replication: number;
  /** Id of the module, or null for what belongs to no module (the feed, the crew). */
  readonly place: string | null;
  /** What the numbers are for: "cycle", "travel", "stop:jam" and so on. */
  readonly purpose: string;
  /** Which of the continuations of one show, where a show is split into several; not given before that. */
  readonly branch?: string;
}

/**
 * The text a stream is seeded with: JSON of [seed, replication, place, purpose], with the branch behind if there is one, and a
 * final NUL.
 *
 * JSON keeps 1 and "1" and neighbouring parts apart; the NUL keeps keys apart where one repeats the other.
 *
 * @throws ParameterError when the seed or replication is not a whole number from 0 to 2^53 - 1
 * @example
 * streamKey({ seed: 7, replication: 0, place: 'tipper', purpose: 'cycle' }) // => '[7,0,"tipper","cycle"]\0'
 */
export function streamKey(address: StreamAddress): string {
  const { seed, replication, place, purpose, branch } = address;
  requireParameter(isCount(seed), 'streamKey', 'seed', seed, 'a whole number from 0 to 9007199254740991');
  requireParameter(isCount(replication), 'streamKey', 'replication', replication, 'a whole number from 0');
  const parts = [seed, replication, place, purpose];
  if (branch !== undefined) parts.push(branch);
  return `${JSON.stringify(parts)}\0`;
}

function isCount(value: number): boolean {
  return Number.isSafeInteger(value) && value >= 0;
}
