import { arriveAtEnd, offer } from './backUp.js';
import { receive, receiveOrSpill, settleLevel, settlePath, tellSpills } from './basket.js';
import { DELIVERY } from './eventClass.js';
import type { LoopState } from './loopState.js';
import { wake } from './mechanism.js';

/** The batch at the head of module m's run-out arrives: in the next basket, or in the tray at the end of a chain. */
export function deliver(s: LoopState, m: number): void {
  const { runOuts, balls, queue } = s;
  const now = queue.now;
  const last = m + 1 === s.loop.modules;
  if (last && !s.loop.closed) {
    while (runOuts.count[m] > 0 && balls.arrivesAt[runOuts.first(m)] <= now) leave(s, runOuts.takeFirst(m));
  } else {
    const to = last ? 0 : m + 1;
    if (s.loop.backsUp[to] === 1) {
      arriveAtEnd(s, m);
      return offer(s, to);
    }
    putIn(s, m, to);
    wake(s, to);
  }
  if (runOuts.count[m] > 0)
    queue.schedule(s.loop.timers.firstRunOut + m, balls.arrivesAt[runOuts.first(m)], DELIVERY);
}

/** The batch that comes to the end of a run-out now goes into the basket there, as far as there is room. */
export function putIn(s: LoopState, from: number, to: number): void {
  const { runOuts, balls, queue } = s;
  settleLevel(s, to);
  s.overflowArrival = -1;
  while (runOuts.count[from] > 0 && balls.arrivesAt[runOuts.first(from)] <= queue.now)
    receive(s, to, runOuts.takeFirst(from));
  if (s.spilledNow > 0) tellSpills(s, to);
}

/** True when basket m has room for all that is on the run-out before it. */
export function surelyFits(s: LoopState, m: number, before: number): boolean {
  return s.baskets.count[m] + s.runOuts.count[before] <= s.capacity[m];
}

/** What arrives at the end of a chute goes into the basket there, or falls. */
export function deliverChute(s: LoopState, chute: number): void {
  const { chutes, balls, queue } = s;
  const to = s.loop.chuteTo[chute];
  settleLevel(s, to);
  while (chutes.count[chute] > 0 && balls.arrivesAt[chutes.first(chute)] <= queue.now)
    receiveOrSpill(s, to, chutes.takeFirst(chute));
  if (chutes.count[chute] > 0)
    queue.schedule(s.loop.timers.firstChute + chute, balls.arrivesAt[chutes.first(chute)], DELIVERY);
  if (s.spilledNow > 0) tellSpills(s, to);
  wake(s, to);
}

/** A ball goes into the tray at the end of an open chain. */
function leave(s: LoopState, ball: number): void {
  const { balls, totals } = s;
  const now = s.queue.now;
  settlePath(s);
  s.onPath--;
  s.left++;
  totals.left++;
  totals.pathSeconds += now - balls.placedAt[ball];
  totals.pathVisits++;
  if (balls.broken[ball] === 0) totals.laps.add(now - balls.lastPass[ball]);
  else totals.laps.broken++;
  balls.leave(ball);
}

/** The feed drops its balls into the first basket and is set for the next time. */
export function feed(s: LoopState): void {
  const { queue } = s;
  const { spec } = s.loop;
  if (spec.supply.kind !== 'feed') return;
  settleLevel(s, 0);
  settlePath(s);
  s.overflowArrival = -1;
  for (let i = 0; i < spec.supply.balls; i++) {
    s.onPath++;
    s.entered++;
    s.totals.entered++;
    receive(s, 0, s.balls.enter(queue.now));
  }
  queue.schedule(s.loop.timers.feed, s.after(s.draws.draw(s.loop.feedDraw)), DELIVERY);
  if (s.spilledNow > 0) tellSpills(s, 0);
  wake(s, 0);
}
