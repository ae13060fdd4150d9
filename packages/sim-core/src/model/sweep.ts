import { pickUpInto, room, settleLevel } from './basket.js';
import { isZero } from './equipment.js';
import { freeMinder, requestMinder, SWEEP_JOB } from './crew.js';
import { SWEEP } from './eventClass.js';
import { FALLEN, FOUND, type LoopState } from './loopState.js';
import { wake } from './mechanism.js';
import { reachInto } from './runAhead.js';

/** A sweep is due: done at once when it needs no minder, asked for otherwise, unless the last one is still to come. */
export function sweepDue(s: LoopState): void {
  const { sweep } = s.loop.spec.crew;
  if (sweep === undefined) return;
  s.queue.schedule(s.loop.timers.sweep, s.after(sweep.everySeconds), SWEEP);
  if (isZero(sweep.takes)) {
    pickUp(s, sweep.into);
  } else if (!s.sweepPending) {
    s.sweepPending = true;
    requestMinder(s, SWEEP_JOB);
  }
}

/** A minder has finished sweeping. */
export function sweepDone(s: LoopState): void {
  const { sweep } = s.loop.spec.crew;
  if (sweep === undefined) return;
  const minder = s.minderJob.indexOf(SWEEP_JOB);
  s.sweepPending = false;
  pickUp(s, sweep.into, minder);
  freeMinder(s, minder);
}

/** Looks for all fallen balls, each lost with the lost share, and puts those found into basket m as far as there is room. */
function pickUp(s: LoopState, m: number, minder = 0): void {
  const { floor } = s;
  while (floor.count[FALLEN] > 0) {
    const ball = floor.takeFirst(FALLEN);
    if (s.chances.happens(s.loop.lostChance)) {
      s.lost++;
      s.totals.lost++;
      if (!s.loop.closed) s.balls.leave(ball);
    } else {
      floor.append(FOUND, ball);
    }
  }
  const before = floor.count[FOUND];
  if (before > 0) {
    settleLevel(s, m);
    while (floor.count[FOUND] > 0 && room(s, m) > 0) pickUpInto(s, m, floor.takeFirst(FOUND));
  }
  const balls = before - floor.count[FOUND];
  if (minder > 0 || balls > 0)
    s.log?.({ time: s.queue.now, kind: 'swept', module: m, balls, ...(minder > 0 && { minder }) });
  if (balls === 0) return;
  reachInto(s, m);
  wake(s, m);
}
