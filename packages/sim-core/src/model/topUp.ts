import { putFromBox, room, settleLevel } from './basket.js';
import { offer } from './backUp.js';
import { freeMinder, requestMinder, TOP_UP_JOB } from './crew.js';
import { SWEEP } from './eventClass.js';
import { type LoopState, NOTHING_DUE, TOP_UP_ASKED, TOP_UP_LATER, TOP_UP_UNDER_WAY } from './loopState.js';
import { wake } from './mechanism.js';
import { reachInto } from './runAhead.js';

/** Seconds until the next try when a top-up did not bring enough. */
const TRY_AGAIN = 60;

/** A ball has left the path and there are too few: balls from the box are asked for, unless they are already. */
export function askForBalls(s: LoopState): void {
  if (s.topUp === NOTHING_DUE && s.box > 0 && s.onPath < s.loop.topUpBelow) ask(s);
}

function ask(s: LoopState): void {
  if (s.loop.topUpDraw < 0) {
    s.topUp = TOP_UP_UNDER_WAY;
    s.queue.schedule(s.loop.timers.topUp, s.queue.now, SWEEP);
  } else {
    s.topUp = TOP_UP_ASKED;
    requestMinder(s, TOP_UP_JOB);
  }
}

/** The timer of topping up: a minder has come with the balls, or it is time to try again. */
export function topUpDue(s: LoopState): void {
  if (s.topUp === TOP_UP_LATER) {
    s.topUp = NOTHING_DUE;
    askForBalls(s);
    return;
  }
  s.topUp = NOTHING_DUE;
  const minder = s.minderJob.indexOf(TOP_UP_JOB);
  bring(s, minder);
  if (s.box > 0 && s.onPath < s.loop.topUpBelow) {
    s.topUp = TOP_UP_LATER;
    s.queue.schedule(s.loop.timers.topUp, s.after(TRY_AGAIN), SWEEP);
  }
  if (minder >= 0) freeMinder(s, minder);
}

function bring(s: LoopState, minder: number): void {
  const { topUp } = s.loop.spec.crew;
  if (topUp === undefined) return;
  settleLevel(s, topUp.into);
  const balls = Math.min(s.box, topUp.upTo - s.onPath, Math.max(0, room(s, topUp.into)));
  for (let i = 0; i < balls; i++) putFromBox(s, topUp.into);
  s.log?.({
    time: s.queue.now,
    kind: 'topped_up',
    module: topUp.into,
    balls: Math.max(0, balls),
    ...(minder >= 0 && { minder }),
  });
  if (balls <= 0) return;
  reachInto(s, topUp.into);
  wake(s, topUp.into);
  offer(s, topUp.into);
}
