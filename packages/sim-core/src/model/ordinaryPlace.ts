import { DELIVERY } from './eventClass.js';
import { CYCLING, type LoopState, STARTING, WAITING } from './loopState.js';
import { runCycle } from './mechanism.js';
import { pass } from './runOut.js';
import { countRunning, drawStrikes, nextStrike } from './strikes.js';
import { onTick } from './tick.js';

/** Most events in one go, so that a place whose time stands still is noticed. */
const MOST_AT_ONCE = 65_536;

/** True while nothing out of the ordinary is to be expected at place m, which runs ahead. */
export function isOrdinary(s: LoopState, m: number): boolean {
  return s.mixed[m] === 0 && s.crowdWatch[m] === 0 && s.phase[m] !== STARTING && s.loop.modules > 1;
}

/**
 * The hottest loop of the simulator: ordinary events of a place that runs ahead, one after the other, up to the limit.
 *
 * It does to the letter what `putIn`, `wake`, `endCycle`, `release`, `startCycle` and `runCycle` do, and they are where the
 * rules are to be read. What makes it fast is that all numbers of the place are kept in local variables meanwhile, and
 * that a batch moves as a piece of a list: no ball is touched more than its links ask for. It gives up before any event
 * in which something else may happen (a leak, a miss, too little room), and runPlace does that one by the rules.
 */
export function runOrdinary(s: LoopState, m: number, before: number, limit: number): void {
  const { baskets, held, runOuts, totals, series, draws, chances, watch, cause } = s;
  const { next, arrivesAt } = s.balls;
  const times = draws.values;
  const capacity = s.capacity[m];
  const batch = s.batch[m];
  const startAt = s.startAt[m];
  const cycleDraw = s.cycleDraw[m];
  const travelDraw = s.travelDraw[m];
  const leak = s.leakChance[m];
  const miss = s.missChance[m];
  const counted = m === s.loop.counter;
  const hasCauses = s.endRow[m] > s.firstRow[m];

  // The run-out before, the basket, the mechanism, the run-out behind: lists of balls.
  let inHead = runOuts.head[before];
  let inCount = runOuts.count[before];
  let head = baskets.head[m];
  let tail = baskets.tail[m];
  let level = baskets.count[m];
  let heldHead = held.head[m];
  let heldTail = held.tail[m];
  let holding = held.count[m];
  let outTail = runOuts.tail[m];
  let outCount = runOuts.count[m];

  let arrival = inCount > 0 ? arrivesAt[inHead] : Infinity;
  let end = s.cycleEnd[m];
  let waiting = s.phase[m] === WAITING;
  let waitingFrom = s.waitingFrom[m];
  let seconds = s.cycleLeft[m];
  let stretchFrom = s.stretchFrom[m];
  let lastArrival = s.lastArrival[m];
  let backlog = s.backlog[m];

  let levelTime = totals.levelTime[m];
  let levelFrom = s.levelFrom[m];
  const cell = series.cellOf(m);
  let levelArea = series.levels[cell];
  let cycles = 0;
  let emptyCycles = 0;
  let handedOn = 0;
  let events = 0;
  let now = 0;
  let struck = false;

  for (;;) {
    if (events >= MOST_AT_ONCE || (miss >= 0 && chances.failuresLeft(miss) < batch)) break;
    if (arrival <= end) {
      // A batch comes off the run-out.
      if (arrival > limit || level + inCount > capacity) break;
      now = arrival;
      const span = now - levelFrom;
      if (span > 0) {
        levelTime[level] += span;
        levelArea += level * span;
        levelFrom = now;
      }
      if (level === 0) head = inHead;
      else next[tail] = inHead;
      do {
        tail = inHead;
        inHead = next[tail];
        level++;
        inCount--;
      } while (inCount > 0 && arrivesAt[inHead] <= now);
      next[tail] = -1;
      arrival = inCount > 0 ? arrivesAt[inHead] : Infinity;
      if (level > totals.levelPeak[m]) {
        totals.levelRose(m, level);
        levelTime = totals.levelTime[m];
      }
      events++;
      if (!waiting || level < startAt) continue;
      totals.waitingSeconds[m] += now - Math.max(waitingFrom, totals.from);
    } else {
      // A cycle ends.
      if (end > limit) break;
      if (holding > 0) {
        if (leak >= 0) {
          if (chances.failuresLeft(leak) < holding) break;
          chances.fail(leak, holding);
        }
        now = end;
        let there = onTick(now + times[draws.place(travelDraw)]);
        if (there < lastArrival) there = lastArrival;
        lastArrival = there;
        for (let ball = heldHead, left = holding; left > 0; ball = next[ball], left--)
          arrivesAt[ball] = there;
        if (counted) {
          s.queue.now = now;
          for (let ball = heldHead, left = holding; left > 0; ball = next[ball], left--) pass(s, ball);
        }
        if (outCount === 0) {
          runOuts.head[m] = heldHead;
          const after = s.loop.placeAfter[m];
          if (after < 0 || s.ahead[after] === 0)
            s.queue.schedule(s.loop.timers.firstRunOut + m, there, DELIVERY);
        } else {
          next[outTail] = heldHead;
        }
        outTail = heldTail;
        outCount += holding;
        handedOn += holding;
        holding = 0;
      }
      now = end;
      if (watch[m] > 0) countRunning(s, m, seconds);
      events++;
      if (level < startAt) {
        waiting = true;
        waitingFrom = now;
        end = Infinity;
        continue;
      }
    }

    // The next cycle begins.
    waiting = false;
    cycles++;
    const found = level;
    if (level === 0) {
      emptyCycles++;
    } else {
      const span = now - levelFrom;
      if (span > 0) {
        levelTime[level] += span;
        levelArea += level * span;
        levelFrom = now;
      }
      holding = level < batch ? level : batch;
      heldHead = head;
      heldTail = head;
      for (let left = holding; left > 1; left--) heldTail = next[heldTail];
      head = next[heldTail];
      next[heldTail] = -1;
      level -= holding;
      if (miss >= 0) chances.fail(miss, holding);
      if (backlog === 1 && 2 * level <= capacity) backlog = 0;
    }
    seconds = times[draws.place(cycleDraw)];
    stretchFrom = now;
    if (hasCauses) {
      drawStrikes(s, m, holding, found, seconds);
      if (watch[m] > 0) {
        nextStrike(s, m, seconds);
        if (cause[m] >= 0) {
          struck = true;
          break;
        }
      }
    }
    end = onTick(now + seconds);
  }

  if (events === 0) return;
  runOuts.head[before] = inHead;
  runOuts.count[before] = inCount;
  baskets.head[m] = head;
  baskets.tail[m] = tail;
  baskets.count[m] = level;
  held.head[m] = heldHead;
  held.tail[m] = heldTail;
  held.count[m] = holding;
  runOuts.tail[m] = outTail;
  runOuts.count[m] = outCount;
  s.cycleEnd[m] = end;
  s.phase[m] = waiting ? WAITING : CYCLING;
  s.waitingFrom[m] = waitingFrom;
  s.cycleLeft[m] = seconds;
  s.stretchFrom[m] = stretchFrom;
  s.lastArrival[m] = lastArrival;
  s.backlog[m] = backlog;
  s.levelFrom[m] = levelFrom;
  series.levels[cell] = levelArea;
  totals.cycles[m] += cycles;
  totals.emptyCycles[m] += emptyCycles;
  totals.handedOn[m] += handedOn;
  s.progress.count(events, now);
  s.queue.now = now;
  if (struck) runCycle(s, m);
}
