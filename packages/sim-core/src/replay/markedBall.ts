import type { LoopView } from '../model/index.js';

/** The marked ball: the first that was put in. */
const BALL = 0;

/** Follows one marked ball past the counter. */
export class MarkedBall {
  /** Set it when balls may have fallen since the last look. */
  mayHaveFallen = false;
  private last: number | undefined;
  private broken = false;

  constructor(private readonly counter: number) {}

  /**
   * Looks after an event in which so many balls have passed the counter.
   *
   * @returns the time of its lap when it has passed now and did not fall on the way
   */
  follow(view: LoopView, passed: number): number | undefined {
    if (this.mayHaveFallen) {
      this.mayHaveFallen = false;
      if (!isInPlace(view)) this.broken = true;
    }
    // Those that have passed now are the last on the run-out.
    if (passed <= 0 || !view.ballsIn('run_out', this.counter).slice(-passed).includes(BALL)) return undefined;
    const lap = this.last === undefined || this.broken ? undefined : view.now - this.last;
    this.last = view.now;
    this.broken = false;
    return lap;
  }
}

/** Whether the ball lies in a basket, a mechanism or a run-out, and not on the floor. */
function isInPlace(view: LoopView): boolean {
  for (let m = 0; m < view.modules; m++) {
    for (const place of ['basket', 'mechanism', 'run_out'] as const)
      if (view.ballsIn(place, m).includes(BALL)) return true;
  }
  return false;
}
