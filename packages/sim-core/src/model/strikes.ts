import { STOP } from './eventClass.js';
import type { LoopState } from './loopState.js';
import { CLOCK, PER_CYCLE, PLANNED, RUNNING } from './stopTable.js';
import { onTick, tickBefore } from './tick.js';

/*
 * When will a cause of stopping strike? Two kinds of reckoning, both by inversion and both exact:
 *
 * - Per cycle and per ball. Instead of a uniform number in every cycle there is an exponential budget, drawn once for
 *   each stop; a cycle with chance p uses up -ln(1 - p) of it, and the stop falls into the cycle in which the budget runs
 *   out. P(no stop in cycles 1..k) = exp(-sum of -ln(1 - p_i)) = product of (1 - p_i), as it must be, also when p changes
 *   from cycle to cycle because the basket is crowded.
 * - Running clocks. The time to the next stop is drawn once and counted down while the module is in a cycle, faster
 *   while its basket is crowded.
 */

/** Draws the first budgets and clocks of all causes. */
export function windUp(s: LoopState): void {
  const { stops } = s.loop;
  for (let row = 0; row < stops.kind.length; row++) {
    const kind = stops.kind[row];
    if (kind === RUNNING || kind === CLOCK) s.strikeIn[row] = s.draws.draw(stops.trigger[row]);
    else if (kind !== PLANNED) s.budget[row] = -Math.log(s.draws.uniform(stops.trigger[row]));
  }
}

/**
 * At a pick of `picked` balls that starts a cycle of `seconds`: decides which causes strike in it, and where.
 *
 * @param level balls in the basket just before the pick: what decides whether it is crowded
 */
export function drawStrikes(s: LoopState, m: number, picked: number, level: number, seconds: number): void {
  const { stops } = s.loop;
  for (let row = s.firstRow[m]; row < s.endRow[m]; row++) {
    const kind = stops.kind[row];
    if (kind >= RUNNING) continue;
    const hazard = level > stops.crowdedAbove[row] ? stops.hazardCrowded[row] : stops.hazard[row];
    // A certain stop has an infinite hazard, and infinity times no ball is no number.
    if (kind === PER_CYCLE) s.budget[row] -= hazard;
    else if (picked > 0) s.budget[row] -= hazard * picked;
    if (s.budget[row] > 0) continue;
    const trigger = stops.trigger[row];
    if (s.strikeIn[row] === Infinity) s.watch[m]++;
    s.strikeIn[row] = tickBefore(s.draws.uniform(trigger) * seconds);
    s.budget[row] = -Math.log(s.draws.uniform(trigger));
  }
}

/**
 * Running time from now until the first cause of module m strikes, if that is less than `limit`; otherwise `limit`.
 * Notes the cause in `s.cause[m]`, -1 for none.
 */
export function nextStrike(s: LoopState, m: number, limit: number): number {
  const { stops } = s.loop;
  const level = s.baskets.count[m];
  let soonest = limit;
  s.cause[m] = -1;
  for (let row = s.firstRow[m]; row < s.endRow[m]; row++) {
    if (stops.kind[row] === CLOCK) continue;
    let time = s.strikeIn[row];
    if (stops.kind[row] === RUNNING) {
      s.speed[row] = level > stops.crowdedAbove[row] ? stops.crowdedTimes[row] : 1;
      time /= s.speed[row];
    }
    time = onTick(time);
    if (time < soonest) {
      soonest = time;
      s.cause[m] = row;
    }
  }
  return soonest;
}

/** Books `seconds` of running time on all causes of module m. */
export function countRunning(s: LoopState, m: number, seconds: number): void {
  const { stops } = s.loop;
  for (let row = s.firstRow[m]; row < s.endRow[m]; row++) {
    if (stops.kind[row] === CLOCK) continue;
    // Kept finer than a tick, for clocks that run faster or slower; nextStrike puts the moment on a tick.
    const left = s.strikeIn[row] - seconds * s.speed[row];
    s.strikeIn[row] = left > 0 ? left : 0;
  }
}

/** The cause in this row has struck: winds it up again. */
export function rewind(s: LoopState, m: number, row: number): void {
  const { stops } = s.loop;
  if (stops.kind[row] === RUNNING || stops.kind[row] === CLOCK) {
    s.strikeIn[row] = s.draws.draw(stops.trigger[row]);
  } else if (stops.kind[row] !== PLANNED) {
    s.strikeIn[row] = Infinity;
    s.watch[m]--;
  }
}

/** The cycle of module m is broken off for good: causes that were to strike in it do not. */
export function forgetStrikes(s: LoopState, m: number): void {
  const { stops } = s.loop;
  for (let row = s.firstRow[m]; row < s.endRow[m]; row++) {
    if (stops.kind[row] < RUNNING) s.strikeIn[row] = Infinity;
  }
}

/** The clocks of what stands at place m count on from now. */
export function startClocks(s: LoopState, m: number): void {
  for (let row = s.firstRow[m]; row < s.endRow[m]; row++) {
    if (s.loop.stops.kind[row] === CLOCK)
      s.queue.schedule(s.loop.timers.clock[row], s.after(s.strikeIn[row]), STOP);
  }
}

/** The clocks of what stands at place m halt. */
export function haltClocks(s: LoopState, m: number): void {
  const { queue } = s;
  const { stops } = s.loop;
  for (let row = s.firstRow[m]; row < s.endRow[m]; row++) {
    if (stops.kind[row] !== CLOCK) continue;
    const due = queue.timeOf(s.loop.timers.clock[row]);
    if (due === Infinity) continue;
    s.strikeIn[row] = onTick(due - queue.now);
    queue.cancel(s.loop.timers.clock[row]);
  }
}
