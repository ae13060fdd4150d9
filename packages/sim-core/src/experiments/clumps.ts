import { clumpedRateInterval, type Estimate, meanOverShows, Moments } from '../statistics/index.js';
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

  /**
   * @param possible false when the scenario rules it out: then it is zero for certain
   * @param certain that every show is the same, by the scenario @default false
   */
  interval(confidence: number, possible: boolean, certain = false): Estimate {
    const { moments, seen } = this;
    // All saw some: there is nothing rare about it.
    if (seen > 0 && seen === moments.count) return meanOverShows(moments, confidence, certain, { min: 0 });
    return unlessImpossible(clumpedRateInterval(moments, seen, confidence), possible);
  }
}
