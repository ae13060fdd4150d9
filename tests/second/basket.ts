import { bookSpills, count } from './books.js';
import { DELIVERY, FROM_OVERFLOW } from './agenda.js';
import type { Time } from './luck.js';
import { refreshClocks } from './clocks.js';
import { roomMayHaveAppeared, startIfItCan } from './mechanism.js';
import { type Ball, type Batch, drawTicks, isStopped, type Place, planIn, type Table } from './table.js';

/*
 * MODEL.md, "A full basket".
 */

/** Room for how many balls: a place without a basket takes a batch while its mechanism waits and is not stopped. */
export function room(place: Place): number {
  const { machine } = place;
  if (machine.basket.capacity > 0) return machine.basket.capacity - place.basket.length;
  return place.doing === 'waiting' && !isStopped(place) ? machine.batch - place.basket.length : 0;
}

/** Puts in as many of the balls as there is room for. @returns the others */
export function putIn(t: Table, place: Place, balls: readonly Ball[]): Ball[] {
  const fit = Math.max(0, Math.min(balls.length, room(place)));
  place.basket.push(...balls.slice(0, fit));
  if (fit > 0) refreshClocks(t, place);
  return balls.slice(fit);
}

/** A delivery from a run-out or the feed. What finds no room is treated as the place treats it. */
export function deliver(t: Table, place: Place, balls: readonly Ball[]): void {
  const rest = putIn(t, place, balls);
  const { whenFull } = place.spec.basket;
  if (whenFull.kind === 'return') sendDownTheChute(t, place, rest, whenFull);
  else spill(t, place, rest);
  startIfItCan(t, place);
  roomMayHaveAppeared(t, place);
}

/** A delivery by a chute or by hand; what finds no room spills there, whatever the place does with others. */
export function deliverOrSpill(t: Table, place: Place, balls: readonly Ball[]): void {
  spill(t, place, putIn(t, place, balls));
  startIfItCan(t, place);
  roomMayHaveAppeared(t, place);
}

/** Balls that find no room at this place fall. */
export function spill(t: Table, place: Place, balls: readonly Ball[]): void {
  bookSpills(t, place, balls.length);
  fall(t, balls);
}

/** Balls fall to the floor, for whatever reason. */
export function fall(t: Table, balls: readonly Ball[]): void {
  for (const ball of balls) {
    ball.fell = true;
    ball.found = false;
    t.floor.push(ball);
  }
  if (balls.length > 0) t.someLeft = true;
}

/** One chute time for all of one delivery, no overtaking. */
function sendDownTheChute(
  t: Table,
  place: Place,
  balls: Ball[],
  chute: { readonly to: number; readonly time: Time },
): void {
  if (balls.length === 0) return;
  count(t, place, 'returned', balls.length);
  const target = t.places[chute.to] as Place;
  travelOn(t, place.overflow, balls, [place.at, FROM_OVERFLOW], {
    takes: drawTicks(t, place.home.owner, 'chute', chute.time),
    arrive: (arrived) => deliverOrSpill(t, target, arrived),
  });
}

/**
 * A batch sets out on a way on which nothing overtakes: it arrives at the later of now + `takes` and the arrival of the
 * batch before it, as a delivery of its own even when that is now.
 */
export function travelOn(
  t: Table,
  way: Batch[],
  balls: Ball[],
  [position, order]: readonly [number, number],
  by: { readonly takes: number; readonly arrive: (balls: Ball[]) => void },
): void {
  const before = way.at(-1);
  const arrives = Math.max(t.now + by.takes, before?.arrives ?? 0);
  if (before?.arrives === arrives) {
    // What arrives at one instant over one way is one delivery.
    before.balls.push(...balls);
    return;
  }
  const batch = { balls: [...balls], arrives };
  way.push(batch);
  planIn(t, arrives - t.now, [DELIVERY, position, order], () => {
    way.shift();
    by.arrive(batch.balls);
  });
}
