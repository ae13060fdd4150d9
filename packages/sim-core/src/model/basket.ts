import { DELIVERY } from './eventClass.js';
import { FALLEN, FOUND, type LoopState, WAITING } from './loopState.js';

/** Call before the level of a basket changes: books the time spent at it. */
export function settleLevel(s: LoopState, m: number): void {
  const now = s.queue.now;
  const seconds = now - s.levelFrom[m];
  if (seconds > 0) {
    const level = s.baskets.count[m];
    s.totals.levelTime[m][level] += seconds;
    s.series.addLevel(m, level * seconds);
    s.levelFrom[m] = now;
  }
}

/** Call before the number of balls on the path changes: books the time with as many as there are. */
export function settlePath(s: LoopState): void {
  s.totals.pathArea += s.onPath * (s.queue.now - s.pathFrom);
  s.pathFrom = s.queue.now;
}

/** Balls that still find room at place m. */
export function room(s: LoopState, m: number): number {
  if (s.capacity[m] > 0) return s.capacity[m] - s.baskets.count[m];
  // No basket: straight into a mechanism that waits.
  return s.phase[m] === WAITING && s.stopped[m] === 0 ? s.batch[m] - s.baskets.count[m] : 0;
}

/**
 * A ball that is on the path comes to place m: it goes in, or finds it full and goes the way of this place, down the
 * overflow chute or to the floor. Settle the level first.
 */
export function receive(s: LoopState, m: number, ball: number): void {
  const level = s.baskets.count[m];
  if (level < s.capacity[m]) {
    s.baskets.append(m, ball);
    s.totals.levelRose(m, level + 1);
  } else if (s.loop.overflowChute[m] >= 0 && room(s, m) <= 0) {
    overflow(s, m, ball);
  } else {
    receiveOrSpill(s, m, ball);
  }
}

/** A ball comes to place m where nothing but its basket or the floor takes it. Settle the level first. */
export function receiveOrSpill(s: LoopState, m: number, ball: number): void {
  if (room(s, m) > 0) {
    s.baskets.append(m, ball);
    s.totals.levelRose(m, s.baskets.count[m]);
  } else {
    spill(s, m, ball);
  }
}

/** A ball finds no room at place m and falls. */
export function spill(s: LoopState, m: number, ball: number): void {
  s.totals.countSpill(m, s.queue.now, s.stopped[m] === 1, s.backlog[m] === 1);
  s.series.countSpill();
  s.spilledNow++;
  fall(s, ball);
}

/** Writes the spills of this event at place m into the log. */
export function tellSpills(s: LoopState, m: number): void {
  s.log?.({ time: s.queue.now, kind: 'spills', module: m, balls: s.spilledNow });
  s.spilledNow = 0;
}

/** A ball goes down the overflow chute of place m, with the others of the same delivery. */
function overflow(s: LoopState, m: number, ball: number): void {
  const chute = s.loop.overflowChute[m];
  if (s.overflowArrival < 0) {
    const arrival = s.after(s.draws.draw(s.loop.chuteDraw[chute]));
    s.overflowArrival = Math.max(arrival, s.lastChuteArrival[chute]);
    s.lastChuteArrival[chute] = s.overflowArrival;
  }
  s.totals.returned[m]++;
  sendDown(s, chute, ball, s.overflowArrival);
}

/** A ball goes down a chute and arrives at a time that is not before that of the ball in front of it. */
export function sendDown(s: LoopState, chute: number, ball: number, arrival: number): void {
  s.balls.arrivesAt[ball] = arrival;
  s.chutes.append(chute, ball);
  if (s.chutes.count[chute] === 1) s.queue.schedule(s.loop.timers.firstChute + chute, arrival, DELIVERY);
}

/** A ball leaves the path for the floor. */
export function fall(s: LoopState, ball: number): void {
  const { balls } = s;
  const now = s.queue.now;
  settlePath(s);
  s.onPath--;
  if (!s.loop.closed) {
    s.totals.pathSeconds += now - balls.placedAt[ball];
    s.totals.pathVisits++;
    if (s.loop.sweepDraw < 0) {
      s.floorForgotten++;
      balls.leave(ball);
      return;
    }
  }
  balls.broken[ball] = 1;
  balls.placedAt[ball] = now;
  s.floor.append(FALLEN, ball);
  if (s.loop.topUpBelow > s.onPath) s.tooFew = true;
}

/** A ball comes back from the floor and goes into basket m, which must have room. Settle the level first. */
export function pickUpInto(s: LoopState, m: number, ball: number): void {
  const { balls } = s;
  settlePath(s);
  s.onPath++;
  balls.offPath[ball] += s.queue.now - balls.placedAt[ball];
  balls.placedAt[ball] = s.queue.now;
  s.baskets.append(m, ball);
  s.totals.levelRose(m, s.baskets.count[m]);
}

/** A ball comes out of the box into basket m, which must have room. Settle the level first. */
export function putFromBox(s: LoopState, m: number): void {
  settlePath(s);
  s.onPath++;
  s.box--;
  s.totals.toppedUp++;
  s.baskets.append(m, s.firstInBox++);
  s.totals.levelRose(m, s.baskets.count[m]);
}

/** Balls on the floor. */
export function onFloor(s: LoopState): number {
  return s.floor.count[FALLEN] + s.floor.count[FOUND] + s.floorForgotten;
}
