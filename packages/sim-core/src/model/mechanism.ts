import { offer, mayLetGo } from './backUp.js';
import { settleLevel } from './basket.js';
import { CYCLE_END, STOP } from './eventClass.js';
import { BETWEEN, CYCLING, type LoopState, WAITING } from './loopState.js';
import { fallIn } from './runAhead.js';
import { release } from './runOut.js';
import { countRunning, drawStrikes, nextStrike } from './strikes.js';
import { onTick } from './tick.js';

/** The cycle of module m is over (or, at the start, its first pick is due): release, then the next pick. */
export function endCycle(s: LoopState, m: number): void {
  if (s.phase[m] === CYCLING) {
    if (s.watch[m] > 0) countRunning(s, m, s.cycleLeft[m]);
    if (s.held.count[m] > 0) {
      if (s.loop.backedUp[m] === 1) {
        if (!mayLetGo(s, m)) return;
        // Its release may make its way back here through the mechanisms it sets going.
        s.phase[m] = BETWEEN;
      }
      release(s, m);
    }
  }
  nextCycle(s, m);
}

/** The mechanism of module m is free: it picks, or waits for balls. */
export function nextCycle(s: LoopState, m: number): void {
  if (s.baskets.count[m] >= s.startAt[m]) {
    startCycle(s, m);
  } else {
    startWaiting(s, m);
    // Without a basket it is only now that there is room.
    if (s.capacity[m] === 0) offer(s, m);
  }
}

/** A demand mechanism waits from now on. */
export function startWaiting(s: LoopState, m: number): void {
  s.phase[m] = WAITING;
  s.cycleEnd[m] = Infinity;
  s.waitingFrom[m] = s.queue.now;
}

/** Books the time that a mechanism has waited. */
export function settleWaiting(s: LoopState, m: number): void {
  s.totals.waitingSeconds[m] += s.queue.now - Math.max(s.waitingFrom[m], s.totals.from);
}

/** Call after balls came into a basket: a waiting mechanism may start, a clock may begin to run faster. */
export function wake(s: LoopState, m: number): void {
  if (s.stopped[m] === 1) return;
  if (s.phase[m] === WAITING) {
    if (s.baskets.count[m] < s.startAt[m]) return;
    settleWaiting(s, m);
    startCycle(s, m);
  } else if (s.crowdWatch[m] === 1 && s.phase[m] === CYCLING) {
    pauseCycle(s, m);
    runCycle(s, m);
  }
}

/** Picks up to a batch of balls and begins a cycle. */
export function startCycle(s: LoopState, m: number): void {
  const level = s.baskets.count[m];
  const picked = level < s.batch[m] ? level : s.batch[m];
  s.totals.cycles[m]++;
  if (picked === 0) s.totals.emptyCycles[m]++;
  else pick(s, m, picked);
  if (s.backlog[m] === 1 && 2 * s.baskets.count[m] <= s.capacity[m]) s.backlog[m] = 0;
  const seconds = s.draws.draw(s.cycleDraw[m]);
  s.phase[m] = CYCLING;
  s.cycleLeft[m] = seconds;
  drawStrikes(s, m, picked, level, seconds);
  runCycle(s, m);
  if (picked > 0 && s.loop.backsUp[m] === 1) offer(s, m);
}

/** Moves the caught among `picked` balls from the basket into the mechanism. */
function pick(s: LoopState, m: number, picked: number): void {
  const { baskets, held } = s;
  const miss = s.missChance[m];
  settleLevel(s, m);
  if (s.mixed[m] === 1) {
    for (let i = 0; i < picked; i++) {
      if (miss >= 0 && s.chances.happens(miss)) continue;
      held.append(m, baskets.takeAt(m, Math.floor(s.draws.uniform(s.mixedDraw[m]) * baskets.count[m])));
    }
  } else if (miss < 0) {
    for (let i = 0; i < picked; i++) held.append(m, baskets.takeFirst(m));
  } else {
    let missed = 0;
    for (let i = 0; i < picked; i++) {
      if (s.chances.happens(miss)) missed++;
      else held.append(m, baskets.takeAt(m, missed));
    }
  }
}

/** Lets the cycle of module m run on from now, until it ends or a stop begins. */
export function runCycle(s: LoopState, m: number): void {
  const left = s.cycleLeft[m];
  s.stretchFrom[m] = s.queue.now;
  if (s.watch[m] > 0) {
    const strike = nextStrike(s, m, left);
    if (s.cause[m] >= 0) {
      if (s.ahead[m] === 1) fallIn(s, m);
      s.queue.schedule(m, s.after(strike), STOP);
      return;
    }
  }
  if (s.ahead[m] === 1) s.cycleEnd[m] = s.after(left);
  else s.queue.schedule(m, s.after(left), CYCLE_END);
}

/** Books the running time up to now, so that the cycle can be taken up again later with {@link runCycle}. */
export function pauseCycle(s: LoopState, m: number): void {
  const ran = s.queue.now - s.stretchFrom[m];
  if (s.watch[m] > 0) countRunning(s, m, ran);
  s.cycleLeft[m] = onTick(Math.max(0, s.cycleLeft[m] - ran));
}
