import type { LoopSpec } from '../model/spec/index.js';

/**
 * Whether a loop comes to stand because modules wait for more balls than there are, in words; undefined when it cannot.
 *
 * A module that starts at n balls may hold n - 1 in its basket for good. It must come to stand when one module waits for
 * more than the whole charge; it may when all of them together can hold the charge.
 *
 * @example
 * standstill(exampleLoop) // => undefined
 */
export function standstill({ modules, supply }: LoopSpec): string | undefined {
  if (supply.kind !== 'charge') return undefined;
  const charge = supply.placed.reduce((sum, balls) => sum + balls, 0);
  const waiting = modules.flatMap(({ id, drive }) =>
    drive.kind === 'demand' && drive.startAt > 1 ? [{ id, startAt: drive.startAt }] : [],
  );
  const never = waiting.find(({ startAt }) => startAt > charge);
  if (never)
    return `The loop comes to stand: ${never.id} waits for ${never.startAt} balls, and there are ${charge}`;
  const held = waiting.reduce((sum, { startAt }) => sum + startAt - 1, 0);
  if (held < charge || charge === 0) return undefined;
  const most = waiting.toSorted((a, b) => b.startAt - a.startAt).slice(0, 3);
  return `The loop may come to stand: modules that wait for several balls (such as ${most.map(({ id, startAt }) => `${id} for ${startAt}`).join(', ')}) can keep all ${charge} balls between them`;
}

/**
 * Whether a loop can lock because everything in it backs up, in words; undefined when it cannot.
 *
 * When every module is held up, basket, run-out and mechanism of each place hold at least capacity + holds + 1 balls
 * together, whatever stands there. The charge alone is never as many, as it fits into the baskets; balls from the box may
 * be, and those lost to the floor may come back on top of them when it is swept.
 *
 * @example
 * mayLock(exampleLoop) // => undefined
 */
export function mayLock({ modules, spares = [], supply, crew }: LoopSpec): string | undefined {
  if (supply.kind !== 'charge') return undefined;
  let room = 0;
  for (const { basket, pull } of modules) {
    if (basket.whenFull.kind !== 'back_up') return undefined;
    const standing = (pull?.spares ?? []).flatMap((s) => spares[s]?.basket.capacity ?? []);
    room += Math.min(basket.capacity, ...standing) + basket.whenFull.holds + 1;
  }
  const charge = supply.placed.reduce((sum, placed) => sum + placed, 0);
  const { topUp, sweep } = crew;
  const balls = topUp === undefined ? charge : sweep ? charge + topUp.box : Math.max(charge, topUp.upTo);
  if (balls < room) return undefined;
  return `The loop can lock: all of its baskets back up, ${room} balls can fill baskets, run-outs and mechanisms so that nothing moves any more, and there may be ${balls}`;
}
