import { clumpedRateInterval, type Estimate, Moments } from '../statistics/index.js';

/** A rate of balls that fall many at a time: its moments over replications, and in how many it was above zero. */
export class Clumps {
  private readonly moments = new Moments();
  private seen = 0;

  add(rate: number): void {
    this.moments.add(rate);
    if (rate > 0) this.seen++;
  }

  /** @param possible false when the scenario rules them out: then the rate is zero for certain */
  interval(confidence: number, possible: boolean): Estimate {
    const estimate = clumpedRateInterval(this.moments, this.seen, confidence);
    return possible || estimate.low === null ? estimate : { ...estimate, high: 0 };
  }
}
