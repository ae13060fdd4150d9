import { room, settleLevel } from './basket.js';
import { DELIVERY } from './eventClass.js';
import { BETWEEN, HELD_UP, type LoopState } from './loopState.js';
import { nextCycle, wake } from './mechanism.js';
import { release } from './runOut.js';
import { settleStates } from './sampling.js';

/*
 * A basket that backs up holds balls on the run-out before it, and a run-out that is full holds up the mechanism behind
 * it. Room made in one basket can so set free a whole row of mechanisms upstream, all in the same event.
 */

/** The place after m, which may back up; in a chain the last place has none. */
function placeAfter(s: LoopState, m: number): number {
  return m + 1 < s.loop.modules ? m + 1 : 0;
}

/** The place whose run-out leads to m, -1 for the head of a chain. */
function placeBefore(s: LoopState, m: number): number {
  return m > 0 ? m - 1 : s.loop.closed ? s.loop.modules - 1 : -1;
}

/** Whether what module m holds fits onto its run-out, or straight into the next basket. */
function fits(s: LoopState, m: number): boolean {
  const balls = s.held.count[m];
  if (balls === 0 || s.leverSet[m] === 1) return true;
  const waiting = s.runOuts.count[m];
  const direct = s.direct[m] === 1 && waiting === 0 ? Math.max(0, room(s, placeAfter(s, m))) : 0;
  return waiting + balls <= s.loop.holds[m] + direct;
}

/** At the end of a cycle: true when module m may release; otherwise it is held up from now on. */
export function mayLetGo(s: LoopState, m: number): boolean {
  if (fits(s, m)) return true;
  settleStates(s);
  s.heldUpModules++;
  s.phase[m] = HELD_UP;
  s.heldUpFrom[m] = s.queue.now;
  return false;
}

/** Module m is not held up any more, or stopped on top of it: books the time. */
export function settleHeldUp(s: LoopState, m: number): void {
  settleStates(s);
  s.heldUpModules--;
  s.totals.heldUpSeconds[m] += s.queue.now - Math.max(s.heldUpFrom[m], s.totals.from);
}

/** Module m is held up again, after a stop. */
export function resumeHeldUp(s: LoopState, m: number): void {
  settleStates(s);
  s.heldUpModules++;
  s.heldUpFrom[m] = s.queue.now;
  letGo(s, m);
}

/** If module m is held up, runs and its batch fits by now: releases it and begins the next cycle. */
export function letGo(s: LoopState, m: number): void {
  if (s.phase[m] !== HELD_UP || s.stopped[m] === 1 || !fits(s, m)) return;
  settleHeldUp(s, m);
  s.phase[m] = BETWEEN;
  release(s, m);
  nextCycle(s, m);
}

/**
 * There may be room at place m: what waits at the end of the run-out before it goes in, its mechanism starts if it can,
 * and the one behind lets go if it was held up. Nothing happens where the place does not back up.
 */
export function offer(s: LoopState, m: number): void {
  takeWaiting(s, m);
  if (s.loop.backsUp[m] === 1 && placeBefore(s, m) >= 0) letGo(s, placeBefore(s, m));
}

/** The first part of an {@link offer}: the mechanism behind does not let go yet. */
export function takeWaiting(s: LoopState, m: number): void {
  if (s.loop.backsUp[m] === 1 && placeBefore(s, m) >= 0) admit(s, placeBefore(s, m), m);
}

/** Balls that wait at the end of the run-out of place `from` go into basket m as far as there is room. */
export function admit(s: LoopState, from: number, m: number): void {
  if (s.waitingAtEnd[from] === 0) return;
  let admitted = 0;
  settleLevel(s, m);
  while (s.waitingAtEnd[from] > 0 && room(s, m) > 0) {
    s.waitingAtEnd[from]--;
    s.baskets.append(m, s.runOuts.takeFirst(from));
    s.totals.levelRose(m, s.baskets.count[m]);
    admitted++;
  }
  if (admitted > 0) wake(s, m);
}

/** Balls that come to the end of the run-out of place `from` now wait there for room; the next ones are still to come. */
export function arriveAtEnd(s: LoopState, from: number): void {
  const { balls, queue } = s;
  let ball = s.firstTravelling[from];
  for (; ball >= 0 && balls.arrivesAt[ball] <= queue.now; ball = balls.next[ball]) s.waitingAtEnd[from]++;
  s.firstTravelling[from] = ball;
  if (ball >= 0) queue.schedule(s.loop.timers.firstRunOut + from, balls.arrivesAt[ball], DELIVERY);
}

/** A batch that begins with this ball has been put onto the run-out of module m, whose end may be blocked. */
export function sendOff(s: LoopState, m: number, ball: number): void {
  if (s.firstTravelling[m] >= 0) return;
  s.firstTravelling[m] = ball;
  if (s.direct[m] === 1) {
    arriveAtEnd(s, m);
    admit(s, m, placeAfter(s, m));
  } else {
    s.queue.schedule(s.loop.timers.firstRunOut + m, s.balls.arrivesAt[ball], DELIVERY);
  }
}
