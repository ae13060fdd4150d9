import { CYCLE_END } from './agenda.js';
import { putIn, room } from './basket.js';
import { isCrowded, refreshClocks } from './clocks.js';
import { mayLetGo, release } from './runOut.js';
import { planStrikes, strikesInThisCycle } from './stops.js';
import { type Ball, drawTicks, isStopped, type Place, placeBehind, planIn, type Table } from './table.js';

/*
 * MODEL.md, "Mechanism", and what happens "whenever room may have appeared".
 */

/** A demand mechanism that waits, and is not stopped, starts when enough balls are there. */
export function startIfItCan(t: Table, place: Place): void {
  const { drive } = place.machine;
  if (drive.kind !== 'demand' || place.doing !== 'waiting' || isStopped(place)) return;
  if (place.basket.length >= drive.startAt) beginCycle(t, place);
}

/** The pick: n balls are reached for, those that are caught leave the basket. */
export function beginCycle(t: Table, place: Place): void {
  const { machine } = place;
  const level = place.basket.length;
  const n = Math.min(machine.batch, level);
  const crowded = machine.causes.map((cause) => isCrowded(place, cause));
  place.hand = catchBalls(t, place, n);
  if (place.basket.length <= machine.basket.capacity / 2) place.backlog = false;
  place.doing = 'in a cycle';
  place.cycleLeft = drawTicks(t, machine.owner, 'cycle', machine.cycle);
  if (t.books.open) {
    machine.tally.cycles++;
    if (n === 0) machine.tally.emptyCycles++;
  }
  place.strikes = strikesInThisCycle(t, place, n, crowded);
  goOn(t, place);
  if (n > 0) roomMayHaveAppeared(t, place);
}

function catchBalls(t: Table, place: Place, n: number): Ball[] {
  const { machine } = place;
  const reached: Ball[] = [];
  const queue = [...place.basket];
  for (let i = 0; i < n; i++) {
    const which =
      machine.basket.order === 'mixed' && queue.length > 1
        ? Math.floor(t.luck.uniform(machine.owner, 'mixed') * queue.length)
        : 0;
    reached.push(...queue.splice(which, 1));
  }
  const caught = reached.filter(() => t.luck.chance(machine.owner, 'catch', machine.catch));
  place.basket = place.basket.filter((ball) => !caught.includes(ball));
  return caught;
}

/** The cycle (or the time before the first pick) goes on, and what is going to end or interrupt it is planned. */
export function goOn(t: Table, place: Place): void {
  place.cycleFrom = t.now;
  const before = place.doing === 'before the first pick';
  place.cycleEnd = planIn(t, place.cycleLeft, [CYCLE_END, place.at, 0], () => {
    place.cycleEnd = undefined;
    place.cycleLeft = 0;
    if (before) beginCycle(t, place);
    else endCycle(t, place);
  });
  planStrikes(t, place);
  refreshClocks(t, place);
}

/** The cycle stands still: what is left of it is kept. */
export function interrupt(t: Table, place: Place): void {
  if (place.cycleEnd) {
    const passed = t.now - place.cycleFrom;
    place.cycleLeft -= passed;
    for (const strike of place.strikes) strike.left -= passed;
  }
  t.agenda.cancel(place.cycleEnd);
  place.cycleEnd = undefined;
  for (const strike of place.strikes) t.agenda.cancel(strike.entry);
}

function endCycle(t: Table, place: Place): void {
  place.strikes = [];
  if (mayLetGo(t, place)) letGo(t, place);
  else {
    place.doing = 'held up';
    refreshClocks(t, place);
  }
}

/** The mechanism releases what it holds and begins its next cycle, or waits for balls. */
export function letGo(t: Table, place: Place): void {
  const balls = place.hand;
  place.hand = [];
  place.doing = 'between';
  release(t, place, balls);
  if (place.machine.drive.kind === 'continuous') beginCycle(t, place);
  else beginToWait(t, place);
}

export function beginToWait(t: Table, place: Place): void {
  place.doing = 'waiting';
  refreshClocks(t, place);
  startIfItCan(t, place);
  if (place.doing === 'waiting' && place.machine.basket.capacity === 0) roomMayHaveAppeared(t, place);
}

/**
 * Balls that wait at the end of the run-out go in as far as there is room, the mechanism that waits for them starts if it
 * can, and the mechanism behind, if it is held up and not stopped, lets go if its batch fits.
 */
export function roomMayHaveAppeared(t: Table, place: Place): void {
  const behind = placeBehind(t, place);
  if (!behind || place.spec.basket.whenFull.kind !== 'back_up') return;
  const { runOut } = behind;
  if (runOut.waiting.length > 0 && room(place) > 0) {
    const waiting = runOut.waiting;
    runOut.waiting = [];
    runOut.waiting = putIn(t, place, waiting);
  }
  startIfItCan(t, place);
  if (behind.doing === 'held up' && !isStopped(behind) && mayLetGo(t, behind)) letGo(t, behind);
}
