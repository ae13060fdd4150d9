import { LimitError } from '../errors/index.js';
import { type SampleSummary, sampleSummary } from '../statistics/index.js';
import { MOST_LAPS } from './spec/index.js';
import type { MeasurePlan } from './measurePlan.js';

/** Loop times of one replication: every unbroken lap is kept, for exact quantiles. */
export class Laps {
  count = 0;
  /** Laps in which the ball lay on the floor. */
  broken = 0;
  /** Laps by length, bars of the measuring plan. */
  readonly histogram: Float64Array;
  private readonly binSeconds: number;
  private seconds = new Float64Array(1024);

  constructor(plan: MeasurePlan) {
    this.histogram = new Float64Array(plan.lapBins);
    this.binSeconds = plan.lapBinSeconds;
  }

  add(seconds: number): void {
    if (this.count === this.seconds.length) {
      if (this.count >= MOST_LAPS)
        throw new LimitError(
          `more than ${MOST_LAPS} laps in one show; shorten the show or lengthen the cycles`,
        );
      const grown = new Float64Array(2 * this.count);
      grown.set(this.seconds);
      this.seconds = grown;
    }
    this.seconds[this.count++] = seconds;
    this.histogram[Math.min(this.histogram.length - 1, Math.floor(seconds / this.binSeconds))]++;
  }

  /** NaN in every field when there was no unbroken lap. */
  summary(): SampleSummary {
    return sampleSummary(this.seconds.slice(0, this.count));
  }
}
