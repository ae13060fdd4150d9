import { SimulationError } from '../errors/index.js';
import { assignJobs, changeDuty } from './crew.js';
import { deliver, deliverChute, feed } from './delivery.js';
import { CLEARED, CYCLE_END, DELIVERY, HANDS, NOTICED, SAMPLE, STOP, SWEEP } from './eventClass.js';
import { leverDone } from './levers.js';
import { checkLock } from './locked.js';
import type { LoopState } from './loopState.js';
import { endCycle } from './mechanism.js';
import { mended, swapDone, wantOut } from './pulls.js';
import { sample, startMeasuring } from './sampling.js';
import { clear, clockStop, notice, plannedStop, strike } from './stops.js';
import { sweepDone, sweepDue } from './sweep.js';
import { onTick } from './tick.js';
import { askForBalls, topUpDue } from './topUp.js';
import { ROLES } from './timers.js';

/** The next event in the queue happens, with all that follows from it at the same instant; gives its timer. */
export function happenNext(s: LoopState): number {
  const { queue } = s;
  const timer = queue.next();
  happen(s, timer);
  if (s.tooFew) {
    s.tooFew = false;
    askForBalls(s);
  }
  if (s.crewChanged) assignJobs(s);
  // What has come to stand, or to the end of its way, may have been the last that moved.
  if (s.loop.canLock && s.heldUpModules > 0) checkLock(s);
  s.progress.count(1, queue.now);
  return timer;
}

/** Sets the timer for the next change of the crew. */
export function scheduleDuty(s: LoopState): void {
  const next = s.loop.spec.crew.duty[s.dutyStep];
  if (next !== undefined) s.queue.schedule(s.loop.timers.duty, onTick(next.fromSeconds), HANDS);
}

function happen(s: LoopState, timer: number): void {
  const n = s.loop.modules;
  switch (s.queue.eventClass) {
    case CYCLE_END:
      return endCycle(s, timer);
    case DELIVERY:
      if (timer < 2 * n) return deliver(s, timer - n);
      return timer === s.loop.timers.feed ? feed(s) : deliverChute(s, timer - s.loop.timers.firstChute);
    case STOP:
      return timer < n ? strike(s, timer) : stopByTime(s, timer);
    case NOTICED:
      return notice(s, timer);
    case CLEARED:
      return clear(s, timer);
    case HANDS:
      return hands(s, timer);
    case SWEEP:
      if (timer === s.loop.timers.topUp) return topUpDue(s);
      return timer === s.loop.timers.sweep ? sweepDue(s) : sweepDone(s);
    case SAMPLE:
      return timer === s.loop.timers.sample ? sample(s) : startMeasuring(s);
    default:
      throw new SimulationError(`an event of the unknown class ${s.queue.eventClass}`);
  }
}

function stopByTime(s: LoopState, timer: number): void {
  const of = s.loop.timers.of[timer];
  if (s.loop.timers.role[timer] === ROLES.clock) clockStop(s, of);
  else plannedStop(s, of, s.loop.stops.planned[timer - s.loop.timers.firstPlanned].row);
}

function hands(s: LoopState, timer: number): void {
  const m = s.loop.timers.of[timer];
  switch (s.loop.timers.role[timer]) {
    case ROLES.mechanism:
      return swapDone(s, m);
    case ROLES.outlasts:
      return wantOut(s, m);
    case ROLES.mended:
      return mended(s, m);
    case ROLES.lever:
      return leverDone(s, m);
    default:
      changeDuty(s);
      return scheduleDuty(s);
  }
}
