import { clumpedRateInterval, type Estimate, Moments } from '../statistics/index.js';
import { unlessImpossible } from './unlessImpossible.js';

/**
 * Balls that fall or come many at a time, and in many shows not at all: the moments of their rate over replications, and
 * in how many it was above zero.
 */
export class Clumps {
  private readonly moments = new Moments();
  private seen = 0;

  add(amount: number): void {
    this.moments.add(amount);
    if (amount > 0) this.seen++;
  }

  /** @param possible false when the scenario rules it out: then it is zero for certain */
  interval(confidence: number, possible: boolean): Estimate {
    return unlessImpossible(clumpedRateInterval(this.moments, this.seen, confidence), possible);
  }
}
