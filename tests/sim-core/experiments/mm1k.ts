import type { LoopSpec } from '../../../packages/sim-core/src/index.js';
import { chain, lasting, module } from '../../build.js';

const exponential = (mean: number): { family: 'exponential'; mean: number } => ({
  family: 'exponential',
  mean,
});

/** M/M/1/K: balls come one by one at random, the mechanism takes exponential times; K counts the ball in it. */
export function mm1k(perSecond: number, capacity: number, total: number): LoopSpec {
  const basket = { capacity: capacity - 1, order: 'fifo', whenFull: { kind: 'spill' } } as const;
  return chain([module('q', { cycle: exponential(1), basket })], 1, {
    supply: { kind: 'feed', balls: 1, every: exponential(1 / perSecond) },
    show: lasting(total),
  });
}

/**
 * P(at least one spill within `total` seconds | 0 at the beginning) of M/M/1/K with service rate 1, by uniformization of the chain in
 * which the first spill absorbs (textbook: Jensen 1953, from memory).
 */
export function chanceOfSpill(perSecond: number, capacity: number, total: number): number {
  const rate = perSecond + 1;
  let at = [1, ...Array.from({ length: capacity + 1 }, () => 0)];
  let spilled = 0;
  let logWeight = -rate * total;
  for (let jumps = 0; jumps < rate * total + 12 * Math.sqrt(rate * total) + 50; jumps++) {
    spilled += Math.exp(logWeight) * (at[capacity + 1] ?? NaN);
    at = at.map(
      (stays, n) =>
        (n > 0 ? ((at[n - 1] ?? 0) * perSecond) / rate : (at[0] ?? 0) / rate) +
        (n < capacity ? (at[n + 1] ?? 0) / rate : 0) +
        (n > capacity ? stays : 0),
    );
    logWeight += Math.log(rate * total) - Math.log(jumps + 1);
  }
  return spilled;
}
