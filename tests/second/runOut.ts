import { FROM_LEVER, FROM_RUN_OUT } from './agenda.js';
import { deliver, deliverOrSpill, fall, room, travelOn } from './basket.js';
import { bookLap, count, onRunOut } from './books.js';
import { isNothing } from './luck.js';
import { roomMayHaveAppeared } from './mechanism.js';
import { type Ball, drawTicks, nextPlace, type Place, type Table } from './table.js';

/*
 * MODEL.md, "Run-out" and "Back up"; the chute of a lever from "Levers".
 */

/** The balls of a mechanism whose cycle has ended leave it: over its run-out, or back when its lever is set. */
export function release(t: Table, place: Place, balls: Ball[]): void {
  if (balls.length === 0) return;
  const { machine } = place;
  if (place.leverSet && place.spec.lever) {
    const { time } = place.spec.lever;
    count(t, place, 'sentBack', balls.length);
    travelOn(t, place.back, balls, [place.at, FROM_LEVER], {
      takes: drawTicks(t, machine.owner, 'recirculate', time),
      arrive: (arrived) => deliverOrSpill(t, place, arrived),
    });
    return;
  }
  const leaked = balls.filter(() => t.luck.chance(machine.owner, 'leak', machine.leak));
  const handedOn = balls.filter((ball) => !leaked.includes(ball));
  count(t, place, 'leaks', leaked.length);
  count(t, place, 'handedOn', handedOn.length);
  if (place.at === t.spec.counter) for (const ball of handedOn) passTheCounter(t, ball);
  fall(t, leaked);
  if (handedOn.length === 0) return;
  const takes = drawTicks(t, machine.owner, machine.isChute ? 'bypass' : 'travel', machine.travel);
  if (dropsIn(t, place)) reachTheEnd(t, place, handedOn);
  else
    travelOn(t, place.runOut.travelling, handedOn, [place.at, FROM_RUN_OUT], {
      takes,
      arrive: (arrived) => reachTheEnd(t, place, arrived),
    });
}

/** With a travel time of constant 0 and nothing on its way, balls drop into a basket that backs up in the same event. */
const dropsIn = (t: Table, place: Place): boolean =>
  nextPlace(t, place)?.spec.basket.whenFull.kind === 'back_up' &&
  isNothing(place.machine.travel) &&
  place.runOut.travelling.length === 0;

/** Balls reach the end of the run-out of a place. */
function reachTheEnd(t: Table, place: Place, balls: readonly Ball[]): void {
  const next = nextPlace(t, place);
  if (!next) intoTheTray(t, balls);
  else if (next.spec.basket.whenFull.kind === 'back_up') {
    place.runOut.waiting.push(...balls);
    roomMayHaveAppeared(t, next);
  } else deliver(t, next, balls);
}

/** May a mechanism whose cycle has ended let its balls go? */
export function mayLetGo(t: Table, place: Place): boolean {
  const n = place.hand.length;
  const next = nextPlace(t, place);
  if (n === 0 || place.leverSet || !next) return true;
  const { whenFull } = next.spec.basket;
  if (whenFull.kind !== 'back_up') return true;
  return onRunOut(place) + n <= whenFull.holds + (dropsIn(t, place) ? room(next) : 0);
}

function passTheCounter(t: Table, ball: Ball): void {
  if (t.books.open) t.books.passes++;
  if (!t.closed) return;
  bookLap(t, ball);
  ball.passedAt = t.now;
  ball.fell = false;
}

function intoTheTray(t: Table, balls: readonly Ball[]): void {
  t.left += balls.length;
  if (t.books.open) t.books.left += balls.length;
  for (const ball of balls) bookLap(t, ball);
}
