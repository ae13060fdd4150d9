import { putIn, surelyFits } from './delivery.js';
import { CYCLE_END, DELIVERY } from './eventClass.js';
import { type LoopState, WAITING } from './loopState.js';
import { endCycle, wake } from './mechanism.js';
import { isOrdinary, runOrdinary } from './ordinaryPlace.js';

/*
 * Most of what happens at a place concerns that place alone: a batch comes off the run-out before it, a cycle ends, a
 * batch goes onto the run-out behind it and will be on its way for seconds. So a place need not wait for its turn among
 * all others: it runs ahead, through all its events up to the moment at which something not known yet might come to it.
 * The rules are the same functions either way; only the order is another, of events that cannot touch each other.
 *
 * What does concern others happens in step, through the queue: a place falls in before it when a stop strikes, a ball
 * leaks, a delivery may find too little room, its lever is set. It stays in step while it is stopped. A place that hands or chutes can
 * reach into at any moment (an overflow, a planned stop), that backs up or is backed up, never runs ahead (headStart.ts). Before an
 * event in the queue happens, all places have come as far; so samples, warm-up and end find them all up to date.
 *
 * With an observer or an audit every place stays in step. Tests compare both ways, number by number.
 */

/** Share of a basket that may be taken, with what is on its way, when a place leaves the queue. */
const ROOM_TO_LEAVE = 0.875;

/**
 * Lets the places that run ahead and are not well past the next event in the queue go as far as they can.
 *
 * @param next time of the next event in the queue
 */
export function runAhead(s: LoopState, next: number): void {
  const { queue, headStart } = s;
  const { until, shortestWay, near } = headStart;
  const { now } = queue;
  // Before this moment nothing new happens anywhere.
  const floor = Math.max(now, Math.min(next, headStart.leastUntil));
  // Here everybody is looked at, or the books change.
  const stop = Math.min(queue.timeOf(s.loop.timers.sample), queue.timeOf(s.loop.timers.warmUp), s.loop.end);
  let least = Infinity;
  for (let m = 0; m < s.loop.modules; m++) {
    if (s.ahead[m] === 0) continue;
    // Who is well past the next event can wait, and then goes further at one go: a few events are not worth coming for.
    if (until[m] < next + near) {
      const before = m > 0 ? m - 1 : s.loop.modules - 1;
      const arrival = nextRelease(s, before, floor) + shortestWay[before];
      const limit = Math.min(stop, arrival, nextHands(s, m, floor));
      if (limit > until[m]) {
        runPlace(s, m, before, limit);
        queue.now = now;
        if (s.ahead[m] === 0) continue;
        until[m] = limit;
      }
    }
    if (until[m] < least) least = until[m];
  }
  headStart.leastUntil = least;
}

/** The mechanism of place m lets nothing go before this moment that is not on the run-out yet. */
function nextRelease(s: LoopState, m: number, floor: number): number {
  const { until, may } = s.headStart;
  const from = s.ahead[m] === 1 && until[m] > floor ? until[m] : floor;
  // In step it may be pulled, or reached into, and then let go at any moment; ahead, only after a clock has struck.
  const inOneCycle = s.ahead[m] === 1 ? s.crowdWatch[m] === 0 : may[m] === 1 && s.loop.mayBePulled[m] === 0;
  if (!inOneCycle || (s.stopped[m] === 1 && s.headStart.redraws)) return from;
  const due = s.ahead[m] === 1 ? s.cycleEnd[m] : s.queue.timeOf(m);
  return due < Infinity && due > from ? due : from;
}

/** Nobody puts balls into basket m, or sets the lever of its module, before this moment. */
function nextHands(s: LoopState, m: number, floor: number): number {
  const { queue, headStart } = s;
  let soonest = Infinity;
  if (s.loop.sweepInto === m) {
    // A sweep that needs no minder is done when it is due.
    const { shortestSweep } = headStart;
    if (shortestSweep === 0) soonest = queue.timeOf(s.loop.timers.sweep);
    else soonest = Math.min(queue.timeOf(s.loop.timers.sweepDone), floor + shortestSweep);
  }
  if (s.loop.topUpInto === m)
    soonest = Math.min(soonest, queue.timeOf(s.loop.timers.topUp), floor + headStart.shortestTopUp);
  if (s.loop.timers.lever[m] >= 0)
    soonest = Math.min(soonest, queue.timeOf(s.loop.timers.lever[m]), floor + headStart.shortestLever[m]);
  return soonest;
}

/** Hands have put balls into basket m: what comes of it at a place that runs ahead may happen at this very moment. */
export function reachInto(s: LoopState, m: number): void {
  if (s.ahead[m] === 0) return;
  s.headStart.until[m] = -Infinity;
  s.headStart.leastUntil = -Infinity;
}

/** Everything that happens at place m up to the limit, or until it must fall in. */
function runPlace(s: LoopState, m: number, before: number, limit: number): void {
  const { queue, runOuts, balls, cycleEnd } = s;
  const leak = s.leakChance[m];
  for (;;) {
    if (isOrdinary(s, m)) {
      runOrdinary(s, m, before, limit);
      if (s.ahead[m] === 0) return;
    }
    const arrival = runOuts.count[before] > 0 ? balls.arrivesAt[runOuts.first(before)] : Infinity;
    const end = cycleEnd[m];
    if (arrival <= end) {
      if (arrival > limit) return;
      if (!surelyFits(s, m, before)) break;
      queue.now = arrival;
      putIn(s, before, m);
      wake(s, m);
    } else {
      if (end > limit) return;
      if (leak >= 0 && s.chances.failuresLeft(leak) < s.held.count[m]) break;
      queue.now = end;
      endCycle(s, m);
    }
    s.progress.count(1, queue.now);
    if (s.ahead[m] === 0) return;
  }
  fallIn(s, m);
}

/** Place m does not run ahead any more: what is to happen at it next goes into the queue. */
export function fallIn(s: LoopState, m: number): void {
  const { queue, runOuts } = s;
  const before = m > 0 ? m - 1 : s.loop.modules - 1;
  s.ahead[m] = 0;
  s.headStart.until[m] = -Infinity;
  if (s.cycleEnd[m] < Infinity) queue.schedule(m, s.cycleEnd[m], CYCLE_END);
  if (runOuts.count[before] > 0)
    queue.schedule(s.loop.timers.firstRunOut + before, s.balls.arrivesAt[runOuts.first(before)], DELIVERY);
}

/** After an event at place m: takes it out of the queue, to run ahead, if nothing at it can concern others soon. */
export function leaveQueue(s: LoopState, m: number): void {
  const { queue, headStart } = s;
  if (headStart.may[m] === 0 || s.ahead[m] === 1 || s.stopped[m] === 1) return;
  if (s.inPlace[m] !== m || s.wantedOut[m] === 1 || s.leverSet[m] === 1) return;
  if (s.loop.leverChute[m] >= 0 && s.chutes.count[s.loop.leverChute[m]] > 0) return;
  const due = queue.timeOf(m);
  if (due < Infinity ? queue.classOf(m) !== CYCLE_END : s.phase[m] !== WAITING) return;
  const before = m > 0 ? m - 1 : s.loop.modules - 1;
  // Some room to spare: a place should not leave the queue only to fall in again.
  if (s.baskets.count[m] + s.runOuts.count[before] > ROOM_TO_LEAVE * s.capacity[m]) return;
  s.ahead[m] = 1;
  s.cycleEnd[m] = due;
  headStart.leastUntil = -Infinity;
  queue.cancel(m);
  queue.cancel(s.loop.timers.firstRunOut + before);
}
