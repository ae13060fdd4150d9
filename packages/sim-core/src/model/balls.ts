import { LimitError } from '../errors/index.js';
import { MOST_BALLS } from './spec/index.js';

/**
 * What is known of each ball, in typed arrays by ball number. In an open chain numbers are given out as balls enter
 * and used again after they have left; the arrays grow as needed.
 */
export class Balls {
  /** The ball behind this one in whatever list it is in, -1 at the end. */
  next: Int32Array;
  /** Time at which a travelling ball arrives. */
  arrivesAt: Float64Array;
  /** Time of the last release at the counter (loop) or of entering (chain); NaN before. */
  lastPass: Float64Array;
  /** Seconds spent off the path (on the floor) since then. */
  offPath: Float64Array;
  /** Time at which the ball last left the path (while on the floor) or came onto it. */
  placedAt: Float64Array;
  /** 1 when the ball has been on the floor since its last pass. */
  broken: Uint8Array;

  private used: number;
  private readonly free: number[] = [];

  constructor(count: number) {
    const room = Math.max(count, 16);
    this.used = count;
    this.next = new Int32Array(room).fill(-1);
    this.arrivesAt = new Float64Array(room);
    this.lastPass = new Float64Array(room).fill(NaN);
    this.offPath = new Float64Array(room);
    this.placedAt = new Float64Array(room);
    this.broken = new Uint8Array(room);
  }

  /** A ball that was not there before. */
  enter(now: number): number {
    const ball = this.free.length > 0 ? (this.free.pop() as number) : this.used++;
    if (ball >= this.next.length) this.grow();
    this.next[ball] = -1;
    this.lastPass[ball] = now;
    this.offPath[ball] = 0;
    this.placedAt[ball] = now;
    this.broken[ball] = 0;
    return ball;
  }

  /** The ball is gone for good; its number may be used again. */
  leave(ball: number): void {
    this.free.push(ball);
  }

  private grow(): void {
    if (this.next.length >= MOST_BALLS) {
      throw new LimitError(
        `more than ${MOST_BALLS} balls are on the table and the floor at once; feed fewer, or let them out at the end`,
      );
    }
    const room = 2 * this.next.length;
    this.next = enlarged(Int32Array, this.next, room);
    this.arrivesAt = enlarged(Float64Array, this.arrivesAt, room);
    this.lastPass = enlarged(Float64Array, this.lastPass, room);
    this.offPath = enlarged(Float64Array, this.offPath, room);
    this.placedAt = enlarged(Float64Array, this.placedAt, room);
    this.broken = enlarged(Uint8Array, this.broken, room);
  }
}

function enlarged<A extends Int32Array | Float64Array | Uint8Array>(
  kind: new (length: number) => A,
  old: A,
  room: number,
): A {
  const grown = new kind(room);
  grown.set(old);
  return grown;
}
