import type { PullSpec } from '../../packages/sim-core/src/model/spec/index.js';
import { HANDS, MENDED, OUTLASTS, SWAP_DONE } from './agenda.js';
import { putIn, spill } from './basket.js';
import { count } from './books.js';
import { refreshClocks, standStill } from './clocks.js';
import { askFor, type Job, setFree, withdraw } from './crew.js';
import { leverGoesOut, reviewLevers } from './levers.js';
import { beginCycle, beginToWait, interrupt, roomMayHaveAppeared } from './mechanism.js';
import { readyAt } from './sessions.js';
import { becomeKnown, cancelPlannedStops, endOfStop, planStopsAfter, walkAndClear } from './stops.js';
import { drawTicks, type Machine, type Place, planIn, type Table, ticks } from './table.js';

/*
 * MODEL.md, "Pulling".
 */

/** At the beginning of a stop: is the module wanted out, now or when the stop has lasted too long? */
export function considerPulling(t: Table, place: Place): void {
  const { pull } = place.spec;
  const { stop } = place;
  if (!pull || !stop || place.machine !== place.home) return;
  place.ownStops.push(t.now);
  if (pull.stops) {
    const from = t.now - ticks(pull.stops.withinSeconds);
    if (place.ownStops.filter((begun) => begun > from).length > pull.stops.moreThan) wantOut(t, place);
  }
  if (pull.outlastsSeconds !== undefined)
    stop.outlasts = planIn(t, ticks(pull.outlastsSeconds), [HANDS, place.at, OUTLASTS], () =>
      wantOut(t, place),
    );
}

/** A module is wanted out: a swap is asked for now, or when the stop is noticed, or instead of its clearing. */
function wantOut(t: Table, place: Place): void {
  const { stop } = place;
  if (!stop || place.wantedOut) return;
  place.wantedOut = true;
  if (stop.cause.remedy.kind === 'itself') {
    askFor(t, 'swap', place);
    return;
  }
  if (!stop.noticed) return;
  const waiting = t.crew.queue.find((job) => job.kind === 'clear' && job.place === place);
  if (waiting) waiting.kind = 'swap';
  else if (place.attendedBy) {
    // A minder is on the way or at work.
    const newcomer = whatGoesIn(t, place);
    if (newcomer) swap(t, place, newcomer, place.attendedBy);
    else place.wantedOut = false;
  }
}

/** The first spare of the list that is not in use; with none, the plain chute if the rule has one. */
function whatGoesIn(t: Table, place: Place): Machine | undefined {
  const { pull } = place.spec;
  const spares = (pull?.spares ?? []).flatMap((index) => t.spares[index] ?? []);
  return spares.find((spare) => !spare.inUse) ?? place.chute;
}

/** A minder takes the job of pulling a module. */
export function beginToSwap(t: Table, place: Place, job: Job): void {
  const newcomer = whatGoesIn(t, place);
  if (newcomer) {
    swap(t, place, newcomer, job);
    return;
  }
  place.wantedOut = false;
  if (place.stop?.cause.remedy.kind === 'crew') {
    place.attendedBy = job;
    becomeKnown(t, place);
    walkAndClear(t, place);
  } else setFree(t, job);
}

/** A minder takes the job of putting a module back that has been mended. */
export function beginToPutBack(t: Table, place: Place, job: Job): void {
  for (const other of t.crew.queue.filter(({ kind, place: at }) => kind === 'clear' && at === place))
    withdraw(t, other);
  swap(t, place, place.home, job);
}

/** During the swap the place is stopped, a cycle is broken off, and what is interrupted never ends by itself. */
function swap(t: Table, place: Place, newcomer: Machine, job: Job): void {
  interrupt(t, place);
  place.strikes = [];
  place.doing = 'broken off';
  t.agenda.cancel(place.stop?.clearing);
  t.agenda.cancel(place.stop?.notice);
  t.agenda.cancel(place.stop?.outlasts);
  place.newcomer = newcomer;
  newcomer.inUse = true;
  place.attendedBy = job;
  refreshClocks(t, place);
  const { swap: takes } = place.spec.pull as PullSpec;
  planIn(t, drawTicks(t, place.home.owner, 'swap', takes), [HANDS, place.at, SWAP_DONE], () =>
    swapIsDone(t, place, newcomer),
  );
  becomeKnown(t, place);
}

function swapIsDone(t: Table, place: Place, newcomer: Machine): void {
  const out = place.machine;
  standStill(t, out);
  cancelPlannedStops(t, out);
  out.inUse = false;
  place.machine = newcomer;
  moveBalls(t, place);
  if (newcomer === place.home) place.ownStops = [];
  else if (out === place.home) {
    place.wantedOut = false;
    count(t, place, 'pulls');
    leverGoesOut(t, place);
    mend(t, place);
  }
  endOfStop(t, place);
  planStopsAfter(t, place, t.now);
  start(t, place);
  reviewLevers(t, place);
}

/** The balls of the mechanism, then those of the basket, into the new basket; others fall while the place is stopped. */
function moveBalls(t: Table, place: Place): void {
  const balls = [...place.hand, ...place.basket];
  place.hand = [];
  place.basket = [];
  spill(t, place, putIn(t, place, balls));
}

/** The newcomer starts as after a clearing: a continuous drive with a whole cycle, a demand drive waiting. */
function start(t: Table, place: Place): void {
  if (place.machine.drive.kind === 'continuous') {
    beginCycle(t, place);
    roomMayHaveAppeared(t, place);
    return;
  }
  place.doing = 'waiting';
  refreshClocks(t, place);
  roomMayHaveAppeared(t, place);
  if (place.doing === 'waiting') beginToWait(t, place);
}

/** It is ready that long after the swap, by the clock on the wall; then putting it back is asked for. */
function mend(t: Table, place: Place): void {
  const { mend: takes } = place.spec.pull as PullSpec;
  if (!takes) return;
  const ready = readyAt(t.spec.show, t.now, drawTicks(t, place.home.owner, 'mend', takes));
  if (ready === undefined) return;
  planIn(t, ready - t.now, [HANDS, place.at, MENDED], () => askFor(t, 'put back', place));
}
