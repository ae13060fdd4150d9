import { parseQuantity } from '../units/index.js';
import type { Scenario, ScenarioDocument } from '../scenario/index.js';
import type { Obstacle } from './draft.js';

/** As many as a charge may have. */
const MOST_BALLS = 1_000_000;

/**
 * Where a file says how many balls each basket holds at the start, those of a module that is taken out go to the others:
 * one to each basket that has room, beginning with the next module, round and round, so that the loop has as many balls as
 * before.
 *
 * @param order the loop with the module in it
 * @param before the scenario with it; undefined when it could not be used, so that nobody knows what baskets hold
 */
export function shareOut(
  draft: ScenarioDocument,
  module: string,
  order: readonly string[],
  before: Omit<Scenario, 'source'> | undefined,
): Obstacle[] {
  const path = ['charge', 'baskets'];
  const ballsOf = (id: string): number => {
    const read = parseQuantity(draft.scalar([...path, id]) ?? 0, 'balls');
    return read.ok ? read.value : NaN;
  };
  const balls = ballsOf(module);
  // What is no number of balls stays, so that reading the scenario reports it.
  if (!(Number.isInteger(balls) && balls >= 0 && balls <= MOST_BALLS)) return [];
  draft.remove([...path, module]);
  if (balls === 0) {
    // A charge of nothing must still name a basket.
    const first = order.find((id) => id !== module);
    if (draft.kind(path) === 'map' && draft.keys(path).length === 0 && first !== undefined)
      draft.putPlain([...path, first], 0);
    return [];
  }
  const place = order.indexOf(module);
  const others = [...order.slice(place + 1), ...order.slice(0, place)];
  const capacity = new Map(before?.spec.modules.map(({ id, basket }) => [id, basket.capacity]));
  const held = new Map(others.map((id) => [id, ballsOf(id) || 0]));
  let left = balls;
  while (left > 0) {
    const withRoom = others.filter((id) => (held.get(id) ?? 0) < (capacity.get(id) ?? Infinity));
    if (withRoom.length === 0) {
      return [
        {
          code: 'out_of_range',
          path: 'charge.baskets',
          rule: `${balls} balls stand in the basket of ${module} at the start, and there is room for ${balls - left} of them in the others`,
          hint: 'Set the charge too, before this: --set charge= and a number of balls.',
        },
      ];
    }
    for (const id of withRoom.slice(0, left)) {
      held.set(id, (held.get(id) ?? 0) + 1);
      left--;
    }
  }
  for (const [id, count] of held) {
    if (count !== (ballsOf(id) || 0)) draft.putPlain([...path, id], count);
  }
  return [];
}
