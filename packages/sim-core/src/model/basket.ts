import { FALLEN, FOUND, type LoopState } from './loopState.js';

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

/** A ball that is on the path comes to basket m: it goes in, or finds it full and spills there. Settle the level first. */
export function receive(s: LoopState, m: number, ball: number): void {
  const level = s.baskets.count[m];
  if (level < s.capacity[m]) {
    s.baskets.append(m, ball);
    s.totals.levelRose(m, level + 1);
    return;
  }
  s.totals.countSpill(m, s.queue.now, s.stopped[m] === 1, s.backlog[m] === 1);
  s.series.countSpill();
  fall(s, ball);
}

/** A ball leaves the path for the floor. */
export function fall(s: LoopState, ball: number): void {
  const { balls } = s;
  const now = s.queue.now;
  settlePath(s);
  s.onPath--;
  if (!s.closed) {
    s.totals.pathSeconds += now - balls.placedAt[ball];
    s.totals.pathVisits++;
    if (s.sweepDraw < 0) {
      s.floorForgotten++;
      balls.leave(ball);
      return;
    }
  }
  balls.broken[ball] = 1;
  balls.placedAt[ball] = now;
  s.floor.append(FALLEN, ball);
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

/** Balls on the floor. */
export function onFloor(s: LoopState): number {
  return s.floor.count[FALLEN] + s.floor.count[FOUND] + s.floorForgotten;
}
