import { happenNext } from './happenNext.js';
import type { LoopState } from './loopState.js';
import { leaveQueue, runAhead } from './runAhead.js';

/**
 * Goes on to the next event in the queue, which happens; before it, all places that run ahead have come as far. Gives the
 * timer of the event, -1 at the end of the show.
 */
export function advance(s: LoopState): number {
  const { queue, headStart } = s;
  const { end } = s.loop;
  for (;;) {
    const next = queue.peek();
    if (headStart.leastUntil < Math.min(next, end)) {
      runAhead(s, next);
      continue;
    }
    if (next > end) return -1;
    const timer = happenNext(s);
    if (timer < s.loop.timers.firstChute) leaveQueue(s, placeOf(s, timer));
    return timer;
  }
}

/** Place at which an event of a mechanism or a run-out happens; -1 for the tray at the end of a chain. */
function placeOf(s: LoopState, timer: number): number {
  return timer < s.loop.timers.firstRunOut ? timer : s.loop.placeAfter[timer - s.loop.timers.firstRunOut];
}
