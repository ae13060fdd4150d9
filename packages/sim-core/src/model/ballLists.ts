import type { Balls } from './balls.js';

/**
 * A fixed number of lists of balls, first in first out, linked through `balls.next`: no allocation, any length.
 */
export class BallLists {
  /** Balls in each list. */
  readonly count: Int32Array;
  private readonly balls: Balls;
  /** First and last ball of each list, while there are any; the links of the last lead to -1. */
  readonly head: Int32Array;
  readonly tail: Int32Array;

  constructor(lists: number, balls: Balls) {
    this.balls = balls;
    this.count = new Int32Array(lists);
    this.head = new Int32Array(lists).fill(-1);
    this.tail = new Int32Array(lists).fill(-1);
  }

  /** The first ball of a list, -1 when it is empty. */
  first(list: number): number {
    return this.head[list];
  }

  append(list: number, ball: number): void {
    const next = this.balls.next;
    next[ball] = -1;
    if (this.count[list]++ === 0) this.head[list] = ball;
    else next[this.tail[list]] = ball;
    this.tail[list] = ball;
  }

  /** Takes the first ball; the list must not be empty. */
  takeFirst(list: number): number {
    const ball = this.head[list];
    this.head[list] = this.balls.next[ball];
    this.count[list]--;
    return ball;
  }

  /** Takes the ball with `index` others before it; there must be that many. */
  takeAt(list: number, index: number): number {
    if (index === 0) return this.takeFirst(list);
    const next = this.balls.next;
    let before = this.head[list];
    for (let i = 1; i < index; i++) before = next[before];
    const ball = next[before];
    next[before] = next[ball];
    if (next[ball] === -1) this.tail[list] = before;
    this.count[list]--;
    return ball;
  }

  /** The balls of a list from first to last, for checks and tests. */
  toArray(list: number): number[] {
    const found: number[] = [];
    for (let i = 0, ball = this.head[list]; i < this.count[list]; i++, ball = this.balls.next[ball])
      found.push(ball);
    return found;
  }
}
