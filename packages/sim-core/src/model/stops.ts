import { fall } from './basket.js';
import { freeMinder, settleCrew } from './crew.js';
import { CLEARED, CYCLE_END, NOTICED } from './eventClass.js';
import { CYCLING, type LoopState, STARTING } from './loopState.js';
import { pauseCycle, runCycle, wake } from './mechanism.js';
import { rewind } from './strikes.js';
import { onTick } from './tick.js';

/** The cause noted for module m strikes in the middle of its cycle. */
export function strike(s: LoopState, m: number): void {
  const row = s.cause[m];
  pauseCycle(s, m);
  rewind(s, m, row);
  begin(s, m, row);
}

/** A planned stop is due; a module that is stopped already takes no notice. */
export function plannedStop(s: LoopState, m: number, row: number): void {
  if (s.stopped[m] === 1) return;
  if (s.phase[m] === CYCLING) {
    pauseCycle(s, m);
  } else if (s.phase[m] === STARTING) {
    s.cycleLeft[m] = onTick(s.cycleLeft[m] - (s.queue.now - s.stretchFrom[m]));
  } else {
    s.totals.waitingSeconds[m] += s.queue.now - Math.max(s.waitingFrom[m], s.totals.from);
  }
  s.queue.cancel(m);
  begin(s, m, row);
}

function begin(s: LoopState, m: number, row: number): void {
  const { stops, draws, queue, held, chances } = s;
  const now = queue.now;
  settleCrew(s);
  s.stoppedModules++;
  s.stopped[m] = 1;
  s.stoppedFrom[m] = now;
  s.cause[m] = row;
  s.totals.stops[m]++;
  s.series.countStop();
  for (let left = held.count[m]; left > 0; left--) {
    const ball = held.takeFirst(m);
    if (chances.happens(stops.drops[row])) {
      s.totals.dropped[m]++;
      fall(s, ball);
    } else {
      held.append(m, ball);
    }
  }
  if (stops.itself[row] >= 0) {
    queue.schedule(m, s.after(draws.draw(stops.itself[row])), CLEARED);
    return;
  }
  queue.schedule(m, s.after(draws.draw(stops.notice[row])), NOTICED);
}

/** The stop of module m is over: its cycle goes on where it was interrupted, and the minder is free. */
export function clear(s: LoopState, m: number): void {
  const { stops, queue, totals } = s;
  const now = queue.now;
  const byCrew = stops.itself[s.cause[m]] < 0;
  settleCrew(s);
  s.stoppedModules--;
  s.stopped[m] = 0;
  totals.stoppedSeconds[m] += now - Math.max(s.stoppedFrom[m], totals.from);
  if (byCrew) totals.countCleared(now - s.stoppedFrom[m]);
  s.backlog[m] = 2 * s.baskets.count[m] > s.capacity[m] ? 1 : 0;
  if (s.phase[m] === CYCLING) {
    runCycle(s, m);
  } else if (s.phase[m] === STARTING) {
    s.stretchFrom[m] = now;
    queue.schedule(m, s.after(s.cycleLeft[m]), CYCLE_END);
  } else {
    s.waitingFrom[m] = now;
    wake(s, m);
  }
  if (byCrew) freeMinder(s);
}
