import { CLEARED, STOP } from './eventClass.js';
import { CYCLING, type LoopState } from './loopState.js';
import { CLOCK, PLANNED, RUNNING } from './stopTable.js';
import { onTick } from './tick.js';

/*
 * Much of what will happen is drawn before it is seen: when a stop will be cleared is drawn as the minder sets out. Where a
 * show is split, its continuations would share all that, and turn out alike. So what is not known yet is drawn anew, given
 * what is known: a stop is not over yet. That leaves the law of the show as it is, because nothing has looked at it. What is
 * left as it was drawn (cycles and ways under way, swaps, clocks that age) is part of what is known.
 */

/** Most draws to find a stop that lasts longer than it has already; then it keeps the end it had, which is as good a draw. */
const MOST_TRIES = 10_000;

/** Draws anew what cannot be seen yet of stops that last and stops to come. */
export function redraw(s: LoopState): void {
  for (let m = 0; m < s.loop.modules; m++) if (s.stopped[m] === 1) redrawClearing(s, m);
  redrawStrikes(s);
}

/** The stop at place m ends at a moment drawn again, given that it is not over now. */
function redrawClearing(s: LoopState, m: number): void {
  const { queue, draws } = s;
  const { stops } = s.loop;
  if (queue.classOf(m) !== CLEARED) return;
  const row = s.cause[m];
  const itself = stops.itself[row];
  const from = itself >= 0 ? s.stoppedFrom[m] : s.workFrom[m];
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const lasts =
      itself >= 0 ? draws.draw(itself) : draws.draw(stops.walk[row]) + draws.draw(stops.clear[row]);
    const over = onTick(from + lasts);
    if (over > queue.now) return queue.schedule(m, over, CLEARED);
  }
}

/** Hazard budgets and exponential clocks forget how much of them is used up. */
function redrawStrikes(s: LoopState): void {
  const { draws, queue } = s;
  const { stops } = s.loop;
  for (let row = 0; row < stops.kind.length; row++) {
    const kind = stops.kind[row];
    if (kind === PLANNED) continue;
    if (kind !== RUNNING && kind !== CLOCK) {
      s.budget[row] = -Math.log(draws.uniform(stops.trigger[row]));
    } else if (kind === CLOCK && draws.isMemoryless(stops.trigger[row])) {
      s.strikeIn[row] = draws.draw(stops.trigger[row]);
      if (queue.timeOf(s.loop.timers.clock[row]) < Infinity)
        queue.schedule(s.loop.timers.clock[row], s.after(s.strikeIn[row]), STOP);
    }
  }
  for (let m = 0; m < s.loop.modules; m++) redrawRunning(s, m);
}

/** Running clocks at place m: of a cycle under way it is known whether one strikes in it. */
function redrawRunning(s: LoopState, m: number): void {
  const { draws, queue } = s;
  const { stops } = s.loop;
  const cycling = s.phase[m] === CYCLING && s.stopped[m] === 0;
  if (cycling && s.ahead[m] === 0 && queue.classOf(m) === STOP) return;
  for (let row = s.firstRow[m]; row < s.endRow[m]; row++) {
    // How far a clock that runs faster at times comes in this cycle depends on what comes into the basket.
    const plain = stops.kind[row] === RUNNING && stops.crowdedTimes[row] === 1;
    if (!plain || !draws.isMemoryless(stops.trigger[row])) continue;
    s.strikeIn[row] = (cycling ? s.cycleLeft[m] : 0) + draws.draw(stops.trigger[row]);
  }
}
