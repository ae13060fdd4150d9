import { resumeHeldUp, settleHeldUp, offer } from './backUp.js';
import { fall } from './basket.js';
import { freeMinder, settleCrew } from './crew.js';
import { CLEARED, CYCLE_END, NOTICED } from './eventClass.js';
import { knowStopped, knowRunning } from './levers.js';
import { CYCLING, HELD_UP, type LoopState, STARTING } from './loopState.js';
import { pauseCycle, runCycle, settleWaiting, wake } from './mechanism.js';
import { askForMinder } from './notice.js';
import { noteStop, watchLength } from './pulls.js';
import { haltClocks, rewind, startClocks } from './strikes.js';
import { onTick } from './tick.js';

/** The cause noted for module m strikes in the middle of its cycle. */
export function strike(s: LoopState, m: number): void {
  const row = s.cause[m];
  pauseCycle(s, m);
  rewind(s, m, row);
  begin(s, m, row);
}

/** A planned stop of a module is due; one that is stopped already or not in the loop takes no notice. */
export function plannedStop(s: LoopState, m: number, row: number): void {
  if (s.stopped[m] === 1 || s.inPlace[m] !== m) return;
  interrupt(s, m);
  begin(s, m, row);
}

/** A clock of what stands somewhere in the loop has run out. */
export function clockStop(s: LoopState, row: number): void {
  const m = s.inPlace.indexOf(s.loop.stops.owner[row]);
  interrupt(s, m);
  rewind(s, m, row);
  begin(s, m, row);
}

/** What stands at place m comes to a halt, whatever it is doing. */
export function interrupt(s: LoopState, m: number): void {
  switch (s.phase[m]) {
    case CYCLING:
      pauseCycle(s, m);
      break;
    case STARTING:
      s.cycleLeft[m] = onTick(s.cycleLeft[m] - (s.queue.now - s.stretchFrom[m]));
      break;
    case HELD_UP:
      settleHeldUp(s, m);
      break;
    default:
      settleWaiting(s, m);
  }
  s.queue.cancel(m);
}

/** From now on place m counts as stopped. */
export function standStill(s: LoopState, m: number): void {
  settleCrew(s);
  s.stoppedModules++;
  s.stopped[m] = 1;
  s.stoppedFrom[m] = s.queue.now;
  haltClocks(s, m);
}

function begin(s: LoopState, m: number, row: number): void {
  const { draws, queue, held, chances } = s;
  const { stops } = s.loop;
  standStill(s, m);
  s.cause[m] = row;
  s.totals.stops[m]++;
  s.series.countStop();
  const before = s.totals.dropped[m];
  for (let left = held.count[m]; left > 0; left--) {
    const ball = held.takeFirst(m);
    if (chances.happens(stops.drops[row])) {
      s.totals.dropped[m]++;
      fall(s, ball);
    } else {
      held.append(m, ball);
    }
  }
  s.log?.({
    time: queue.now,
    kind: 'stops',
    module: m,
    cause: stops.id[row],
    balls: s.totals.dropped[m] - before,
  });
  if (stops.itself[row] >= 0) queue.schedule(m, s.after(draws.draw(stops.itself[row])), CLEARED);
  else queue.schedule(m, s.after(draws.draw(stops.notice[row])), NOTICED);
  watchLength(s, m);
  noteStop(s, m);
}

/** The stop of module m is noticed. */
export function notice(s: LoopState, m: number): void {
  s.log?.({ time: s.queue.now, kind: 'noticed', module: m });
  askForMinder(s, m);
  knowStopped(s, m);
}

/** The stop of module m is over: its cycle goes on where it was interrupted, and the minder is free. */
export function clear(s: LoopState, m: number): void {
  const { now } = s.queue;
  const byCrew = needsCrew(s, m);
  const minder = s.workAt[m];
  s.log?.({
    time: now,
    kind: byCrew ? 'cleared' : 'freed_itself',
    module: m,
    cause: s.loop.stops.id[s.cause[m]],
    seconds: now - s.stoppedFrom[m],
    ...(byCrew && { minder }),
  });
  runAgain(s, m, byCrew);
  s.backlog[m] = 2 * s.baskets.count[m] > s.capacity[m] ? 1 : 0;
  goOn(s, m);
  knowRunning(s, m);
  if (byCrew) {
    s.workAt[m] = 0;
    freeMinder(s, minder);
  }
}

/** Whether the stop that lasts at place m is one that a minder must clear. */
export function needsCrew(s: LoopState, m: number): boolean {
  return s.cause[m] >= 0 && s.loop.stops.itself[s.cause[m]] < 0;
}

/** Place m stands still no longer: books how long it did. */
export function runAgain(s: LoopState, m: number, cleared: boolean): void {
  const { totals, queue } = s;
  const { now } = queue;
  settleCrew(s);
  s.stoppedModules--;
  s.stopped[m] = 0;
  totals.stoppedSeconds[m] += now - Math.max(s.stoppedFrom[m], totals.from);
  if (cleared) totals.countCleared(now - s.stoppedFrom[m]);
  if (s.loop.timers.outlasts[m] >= 0) queue.cancel(s.loop.timers.outlasts[m]);
}

/** Goes on with what was interrupted. */
function goOn(s: LoopState, m: number): void {
  const { now } = s.queue;
  startClocks(s, m);
  switch (s.phase[m]) {
    case CYCLING:
      return runCycle(s, m);
    case STARTING:
      s.stretchFrom[m] = now;
      return s.queue.schedule(m, s.after(s.cycleLeft[m]), CYCLE_END);
    case HELD_UP:
      return resumeHeldUp(s, m);
    default:
      s.waitingFrom[m] = now;
      wake(s, m);
      offer(s, m);
  }
}
