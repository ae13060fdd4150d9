import { pickUpInto, settleLevel } from './basket.js';
import { freeMinder, requestMinder, SWEEP_JOB } from './crew.js';
import { SWEEP } from './eventClass.js';
import { FALLEN, FOUND, type LoopState } from './loopState.js';
import { wake } from './mechanism.js';

/** A sweep is due: done at once when it needs no minder, asked for otherwise, unless the last one is still to come. */
export function sweepDue(s: LoopState): void {
  const { sweep } = s.spec.crew;
  if (sweep === undefined) return;
  s.queue.schedule(s.sweepTimer, s.after(sweep.everySeconds), SWEEP);
  if (sweep.takes.family === 'constant' && sweep.takes.value === 0) {
    pickUp(s, sweep.into);
  } else if (!s.sweepPending) {
    s.sweepPending = true;
    requestMinder(s, SWEEP_JOB);
  }
}

/** A minder has finished sweeping. */
export function sweepDone(s: LoopState): void {
  const { sweep } = s.spec.crew;
  if (sweep === undefined) return;
  s.sweepPending = false;
  pickUp(s, sweep.into);
  freeMinder(s);
}

/** Looks for all fallen balls, each lost with the lost share, and puts those found into basket m as far as there is room. */
function pickUp(s: LoopState, m: number): void {
  const { floor, baskets } = s;
  while (floor.count[FALLEN] > 0) {
    const ball = floor.takeFirst(FALLEN);
    if (s.chances.happens(s.lostChance)) {
      s.lost++;
      s.totals.lost++;
      if (!s.closed) s.balls.leave(ball);
    } else {
      floor.append(FOUND, ball);
    }
  }
  if (floor.count[FOUND] === 0) return;
  settleLevel(s, m);
  while (floor.count[FOUND] > 0 && baskets.count[m] < s.capacity[m]) pickUpInto(s, m, floor.takeFirst(FOUND));
  wake(s, m);
}
