import { fall } from './basket.js';
import { DELIVERY } from './eventClass.js';
import type { LoopState } from './loopState.js';

/**
 * The mechanism of module m lets go of all it holds: each ball leaks to the floor or goes onto the run-out. One travel
 * time for the batch; no batch overtakes the one before it.
 */
export function release(s: LoopState, m: number): void {
  const { held, runOuts, balls, queue } = s;
  let arrival = s.after(s.draws.draw(s.travelDraw[m]));
  if (arrival < s.lastArrival[m]) arrival = s.lastArrival[m];
  const leak = s.leakChance[m];
  const counted = m === s.counter;
  const before = runOuts.count[m];
  for (let left = held.count[m]; left > 0; left--) {
    const ball = held.takeFirst(m);
    if (leak >= 0 && s.chances.happens(leak)) {
      s.totals.leaks[m]++;
      fall(s, ball);
      continue;
    }
    balls.arrivesAt[ball] = arrival;
    runOuts.append(m, ball);
    s.totals.handedOn[m]++;
    if (counted) pass(s, ball);
  }
  if (runOuts.count[m] === before) return;
  s.lastArrival[m] = arrival;
  if (before === 0) queue.schedule(s.firstRunOutTimer + m, arrival, DELIVERY);
}

/** A ball is released at the counter module: in a loop that ends a lap and begins the next. */
function pass(s: LoopState, ball: number): void {
  const { balls, totals } = s;
  totals.passes++;
  s.series.countPass();
  if (!s.closed) return;
  const now = s.queue.now;
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
