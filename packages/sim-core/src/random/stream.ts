import type { Uniform } from '../numerics/index.js';
import { StreamBank } from './streamBank.js';
import { type StreamAddress, streamKey } from './streamKey.js';

/**
 * One stream of uniform random numbers, by its address. The same address gives the same numbers, always; another
 * address gives numbers independent of these for all that is known of the generator.
 *
 * @throws ParameterError when the seed or replication is not a whole number from 0
 * @example
 * const twice = () => stream({ seed: 1, replication: 0, place: 'tipper', purpose: 'cycle' });
 * twice()() === twice()() // => true
 */
export function stream(address: StreamAddress): Uniform {
  const bank = new StreamBank(1);
  bank.open(0, streamKey(address));
  return () => bank.next(0);
}
