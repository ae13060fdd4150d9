import { sendOff } from './backUp.js';
import { fall, sendDown } from './basket.js';
import { DELIVERY } from './eventClass.js';
import type { LoopState } from './loopState.js';

/**
 * The mechanism of module m lets go of all it holds: each ball leaks to the floor or goes onto the run-out. One travel
 * time for the batch; no batch overtakes the one before it. With its lever set all of it goes back instead.
 */
export function release(s: LoopState, m: number): void {
  if (s.leverSet[m] === 1) return recirculate(s, m);
  const { held, runOuts, balls, queue } = s;
  let arrival = s.after(s.draws.draw(s.travelDraw[m]));
  if (arrival < s.lastArrival[m]) arrival = s.lastArrival[m];
  const leak = s.leakChance[m];
  const counted = m === s.loop.counter;
  const before = runOuts.count[m];
  let first = -1;
  const leaksBefore = s.totals.leaks[m];
  for (let left = held.count[m]; left > 0; left--) {
    const ball = held.takeFirst(m);
    if (leak >= 0 && s.chances.happens(leak)) {
      s.totals.leaks[m]++;
      fall(s, ball);
      continue;
    }
    balls.arrivesAt[ball] = arrival;
    runOuts.append(m, ball);
    if (first < 0) first = ball;
    s.totals.handedOn[m]++;
    if (counted) pass(s, ball);
  }
  if (s.log && s.totals.leaks[m] > leaksBefore)
    s.log({ time: queue.now, kind: 'leaks', module: m, balls: s.totals.leaks[m] - leaksBefore });
  if (runOuts.count[m] === before) return;
  s.lastArrival[m] = arrival;
  if (s.loop.backedUp[m] === 1) sendOff(s, m, first);
  else if (before === 0 && !isAhead(s, s.loop.placeAfter[m]))
    queue.schedule(s.loop.timers.firstRunOut + m, arrival, DELIVERY);
}

/** What comes to a place that runs ahead needs no timer; the tray never does. */
function isAhead(s: LoopState, m: number): boolean {
  return m >= 0 && s.ahead[m] === 1;
}

/** What module m holds goes down the chute of its lever, back into its own basket. */
function recirculate(s: LoopState, m: number): void {
  const { held } = s;
  const chute = s.loop.leverChute[m];
  const arrival = Math.max(s.after(s.draws.draw(s.loop.chuteDraw[chute])), s.lastChuteArrival[chute]);
  s.lastChuteArrival[chute] = arrival;
  s.totals.recirculated[m] += held.count[m];
  while (held.count[m] > 0) sendDown(s, chute, held.takeFirst(m), arrival);
}

/** A ball is released at the counter module: in a loop that ends a lap and begins the next. */
export function pass(s: LoopState, ball: number): void {
  const { balls, totals } = s;
  const now = s.queue.now;
  totals.countPass(now);
  s.series.countPass();
  if (!s.loop.closed) return;
  const lastPass = balls.lastPass[ball];
  if (lastPass === lastPass) {
    const seconds = now - lastPass;
    totals.pathSeconds += seconds - balls.offPath[ball];
    totals.pathVisits++;
    if (balls.broken[ball] === 0) totals.laps.add(seconds);
    else totals.laps.broken++;
  }
  balls.lastPass[ball] = now;
  balls.offPath[ball] = 0;
  balls.broken[ball] = 0;
}
