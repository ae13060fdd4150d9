import { spill, settleLevel, tellSpills } from './basket.js';
import { BACK_JOB, CLEAR_JOB, freeMinder, requestMinder, startClearing, SWAP_JOB, withdraw } from './crew.js';
import { offer, takeWaiting } from './backUp.js';
import { HANDS } from './eventClass.js';
import { CYCLING, type LoopState } from './loopState.js';
import { forgetLever, knowRunning, knowStopped, recallLever } from './levers.js';
import { startCycle, startWaiting, wake } from './mechanism.js';
import { isAsked } from './notice.js';
import { settleStates } from './sampling.js';
import { clockSecondsAt } from '../units/index.js';
import { publicSeconds } from './spec/index.js';
import { interrupt, needsCrew, runAgain, standStill } from './stops.js';
import { forgetStrikes, startClocks } from './strikes.js';
import { onTick } from './tick.js';

/** A stop begins at place m: if the module has a limit on its length, that begins to run. */
export function watchLength(s: LoopState, m: number): void {
  const limit = s.inPlace[m] === m ? s.loop.spec.modules[m].pull?.outlastsSeconds : undefined;
  if (limit !== undefined) s.queue.schedule(s.loop.timers.outlasts[m], s.after(limit), HANDS);
}

/** A stop begins at place m: if it is one too many of the module's own, the module is to be pulled. */
export function noteStop(s: LoopState, m: number): void {
  const rule = s.inPlace[m] === m ? s.loop.spec.modules[m].pull?.stops : undefined;
  if (rule === undefined) return;
  const { now } = s.queue;
  const last = s.lastStops[m];
  last.push(now);
  while (last[0] <= now - rule.withinSeconds) last.shift();
  if (last.length > rule.moreThan) wantOut(s, m);
}

/** Module m is to be pulled: asks for the swap, unless its stop is not noticed yet. */
export function wantOut(s: LoopState, m: number): void {
  if (s.wantedOut[m] === 1 || s.inPlace[m] !== m || s.goesIn[m] >= 0) return;
  s.wantedOut[m] = 1;
  s.log?.({ time: s.queue.now, kind: 'wanted_out', module: m });
  if (!needsCrew(s, m)) {
    requestMinder(s, SWAP_JOB, m);
    return;
  }
  if (s.known[m] === 0) return;
  const minder = s.workAt[m];
  const clearing = s.jobs.indexOf(CLEAR_JOB * s.loop.modules + m);
  if (clearing >= 0) s.jobs[clearing] = SWAP_JOB * s.loop.modules + m;
  else if (minder > 0) {
    const incoming = replacement(s, m);
    if (incoming < 0) s.wantedOut[m] = 0;
    else beginSwap(s, m, incoming, minder);
  }
}

/** A minder has come to swap module m: for the first thing that is free, or to clear its stop when nothing is. */
export function beginJobSwap(s: LoopState, m: number, minder: number): void {
  const incoming = replacement(s, m);
  if (incoming >= 0) return beginSwap(s, m, incoming, minder);
  s.wantedOut[m] = 0;
  if (s.stopped[m] === 1 && needsCrew(s, m)) {
    withdraw(s, CLEAR_JOB, m);
    startClearing(s, m, minder);
    knowStopped(s, m);
  } else {
    freeMinder(s, minder);
  }
}

/** A minder has come to put module m back. */
export function beginPutBack(s: LoopState, m: number, minder: number): void {
  beginSwap(s, m, m, minder);
}

/** Number of what would go in for module m now, -1 for nothing. */
function replacement(s: LoopState, m: number): number {
  const rule = s.loop.spec.modules[m].pull;
  const spare = rule?.spares.find((k) => s.spareTaken[k] === 0);
  if (spare !== undefined) return s.loop.modules + spare;
  return rule?.chute ? s.loop.equipment.firstChute + m : -1;
}

/** The minder begins to take out what stands at place m. */
function beginSwap(s: LoopState, m: number, incoming: number, minder: number): void {
  const spare = incoming - s.loop.modules;
  if (spare >= 0 && spare < s.loop.equipment.spares) s.spareTaken[spare] = 1;
  withdraw(s, CLEAR_JOB, m);
  withdraw(s, SWAP_JOB, m);
  if (s.stopped[m] === 0) {
    interrupt(s, m);
    standStill(s, m);
    s.cause[m] = -1;
  }
  s.goesIn[m] = incoming;
  s.workAt[m] = minder;
  s.minderJob[minder] = (incoming === m ? BACK_JOB : SWAP_JOB) * s.loop.modules + m;
  s.log?.({
    time: s.queue.now,
    kind: 'sets_out',
    module: m,
    minder,
    what: incoming === m ? 'put it back' : `swap it for ${s.loop.equipment.ids[incoming]}`,
  });
  if (s.loop.timers.outlasts[m] >= 0) s.queue.cancel(s.loop.timers.outlasts[m]);
  s.queue.schedule(m, s.after(s.draws.draw(s.loop.swapDraw[m])), HANDS);
  knowStopped(s, m);
}

/** What was to go in at place m is in, with the balls of what was there; it begins to work. */
export function swapDone(s: LoopState, m: number): void {
  const { now } = s.queue;
  const outgoing = s.inPlace[m];
  const incoming = s.goesIn[m];
  const minder = s.workAt[m];
  const cleared = needsCrew(s, m);
  const stoodStill = now - s.stoppedFrom[m];
  runAgain(s, m, cleared);
  s.goesIn[m] = -1;
  s.wantedOut[m] = 0;
  forgetStrikes(s, m);
  s.totals.handOver(m, outgoing, now - Math.max(s.inPlaceFrom[m], s.totals.from));
  install(s, m, incoming);
  const spare = outgoing - s.loop.modules;
  if (spare >= 0 && spare < s.loop.equipment.spares) s.spareTaken[spare] = 0;
  settleStates(s);
  if (incoming === m) comeBack(s, m);
  else goOut(s, m);
  s.log?.({
    time: now,
    kind: incoming === m ? 'put_back' : 'pulled',
    module: m,
    minder,
    seconds: stoodStill,
    what: s.loop.equipment.ids[incoming === m ? outgoing : incoming],
  });
  moveBalls(s, m);
  s.backlog[m] = 2 * s.baskets.count[m] > s.capacity[m] ? 1 : 0;
  s.cause[m] = -1;
  startClocks(s, m);
  if (s.startAt[m] === 0) {
    startCycle(s, m);
  } else {
    startWaiting(s, m);
    takeWaiting(s, m);
    wake(s, m);
  }
  offer(s, m);
  knowRunning(s, m);
  if (incoming === m) recallLever(s, m);
  s.workAt[m] = 0;
  freeMinder(s, minder);
}

/** Module m is out of the loop from now on. */
function goOut(s: LoopState, m: number): void {
  const { now } = s.queue;
  s.pulledModules++;
  s.pulledFrom[m] = now;
  s.totals.pulls[m]++;
  forgetLever(s, m);
  if (s.loop.mendDraw[m] < 0) return;
  const { show } = s.loop.spec;
  const out = clockSecondsAt(show, now, { end: true });
  const ready = onTick(publicSeconds(show, out + s.draws.draw(s.loop.mendDraw[m])));
  if (ready < Infinity) s.queue.schedule(s.loop.timers.mended[m], ready, HANDS);
}

/** Module m is in the loop again. */
function comeBack(s: LoopState, m: number): void {
  s.pulledModules--;
  s.lastStops[m].length = 0;
}

/** Module m is ready on the side table: a minder is asked to put it back. */
export function mended(s: LoopState, m: number): void {
  s.log?.({ time: s.queue.now, kind: 'mended', module: m });
  if (!isAsked(s, BACK_JOB, m)) requestMinder(s, BACK_JOB, m);
}

/** The parameters of what comes in become those of the place. */
function install(s: LoopState, m: number, number: number): void {
  const { equipment: gear, stops } = s.loop;
  s.inPlace[m] = number;
  s.inPlaceFrom[m] = s.queue.now;
  s.batch[m] = gear.batch[number];
  s.mixed[m] = gear.mixed[number];
  s.startAt[m] = gear.startAt[number];
  s.direct[m] = gear.direct[number];
  s.cycleDraw[m] = gear.cycleDraw[number];
  s.travelDraw[m] = gear.travelDraw[number];
  s.mixedDraw[m] = gear.mixedDraw[number];
  s.missChance[m] = gear.missChance[number];
  s.leakChance[m] = gear.leakChance[number];
  s.watch[m] = gear.runningClocks[number];
  s.crowdWatch[m] = gear.crowdWatch[number];
  const rows = number < gear.firstChute;
  s.firstRow[m] = rows ? stops.first[number] : 0;
  s.endRow[m] = rows ? stops.first[number + 1] : 0;
  for (let row = s.firstRow[m]; row < s.endRow[m]; row++) {
    if (s.loop.timers.clock[row] >= 0) s.queue.setPosition(s.loop.timers.clock[row], m + 1);
  }
  s.phase[m] = CYCLING;
}

/** By hand: the balls of the mechanism and then those of the basket go into the new basket; the rest fall. */
function moveBalls(s: LoopState, m: number): void {
  const { held, baskets } = s;
  settleLevel(s, m);
  const balls: number[] = [];
  while (held.count[m] > 0) balls.push(held.takeFirst(m));
  while (baskets.count[m] > 0) balls.push(baskets.takeFirst(m));
  s.capacity[m] = s.loop.equipment.capacity[s.inPlace[m]];
  // For the spills that may follow the place still counts as stopped.
  s.stopped[m] = 1;
  for (const ball of balls) {
    if (baskets.count[m] < s.capacity[m]) {
      baskets.append(m, ball);
      s.totals.levelRose(m, baskets.count[m]);
    } else {
      spill(s, m, ball);
    }
  }
  s.stopped[m] = 0;
  if (s.spilledNow > 0) tellSpills(s, m);
}
