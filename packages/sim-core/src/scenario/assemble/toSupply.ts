import type { ChargeSpec, FeedSpec, ModuleSpec } from '../../model/spec/index.js';
import type { ChargeRead, FeedRead } from '../form/scenarioForm.js';
import type { Found } from '../found.js';
import type { Names } from './names.js';

/** Places the charge of a loop into the baskets; undefined when it does not fit or names are wrong (reported). */
export function toCharge(
  read: NonNullable<ChargeRead>,
  at: Found,
  modules: readonly ModuleSpec[],
  positions: Names<number>,
): ChargeSpec | undefined {
  if (typeof read === 'number') return spread(read, at, modules);
  if (read.balls !== undefined) return spread(read.balls, at, modules);
  if (read.baskets === undefined) return undefined;
  const placed = modules.map(() => 0);
  let ok = true;
  for (const { name, at: place, value } of read.baskets) {
    const position = positions.lookUp(name, place);
    const capacity = position === undefined ? undefined : modules[position]?.basket.capacity;
    if (position === undefined || capacity === undefined) {
      ok = false;
    } else if (value > capacity) {
      place.report('out_of_range', `${value} balls are put into this basket, but it holds ${capacity}`);
      ok = false;
    } else {
      placed[position] = value;
    }
  }
  return ok ? { kind: 'charge', placed } : undefined;
}

/** Evenly, as by a hand that goes round and puts one ball into each basket that has room, until none is left. */
function spread(balls: number, at: Found, modules: readonly ModuleSpec[]): ChargeSpec | undefined {
  const room = modules.reduce((sum, { basket }) => sum + basket.capacity, 0);
  if (balls > room)
    return at.report('out_of_range', `the charge is ${balls} balls, but all baskets together hold ${room}`);
  // The most full rounds: everywhere as many balls as that, or as many as go in.
  const after = (rounds: number): number =>
    modules.reduce((sum, { basket }) => sum + Math.min(basket.capacity, rounds), 0);
  let rounds = 0;
  for (let step = 2 ** 20; step >= 1; step /= 2) if (after(rounds + step) <= balls) rounds += step;
  let left = balls - after(rounds);
  const placed = modules.map(({ basket: { capacity } }) => {
    const more = left > 0 && capacity > rounds;
    if (more) left--;
    return Math.min(capacity, rounds) + (more ? 1 : 0);
  });
  return { kind: 'charge', placed };
}

/** Makes the feed; undefined when something in it is missing (reported). */
export function toFeed(read: NonNullable<FeedRead>): FeedSpec | undefined {
  const first = read.first ?? 0;
  if (read.steady !== undefined)
    return { kind: 'feed', balls: 1, every: { family: 'constant', value: 1 / read.steady }, first };
  if (read.poisson !== undefined)
    return { kind: 'feed', balls: 1, every: { family: 'exponential', mean: 1 / read.poisson } };
  const { balls, every } = read.bursts ?? {};
  return balls === undefined || every === undefined ? undefined : { kind: 'feed', balls, every, first };
}
