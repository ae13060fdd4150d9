import type { ReplicationResult } from '../model/index.js';
import type { TopUpSpec } from '../model/spec/index.js';
import { clusteredProportion, meanOverShows, Moments } from '../statistics/index.js';
import type { RunEstimates } from './runResult.js';
import { Shares } from './shares.js';

/** Adds up over replications what came from the box and what was left in it. */
export class BoxSummary {
  private readonly topUp: TopUpSpec | undefined;
  /** As a share of the box, because there is an upper limit then. */
  private readonly toppedUp = new Shares();
  private readonly left = new Moments();
  private readonly empty = new Moments();

  constructor(topUp: TopUpSpec | undefined) {
    this.topUp = topUp;
  }

  add({ toppedUp, boxLeft }: ReplicationResult): void {
    this.toppedUp.add(this.topUp && this.topUp.box > 0 ? toppedUp / this.topUp.box : 0);
    this.left.add(boxLeft);
    this.empty.add(boxLeft === 0 ? 1 : 0);
  }

  estimates(
    confidence: number,
    certain: boolean,
  ): Pick<RunEstimates, 'balls_topped_up_per_show' | 'box_left_balls' | 'box_empty_risk'> {
    const { topUp } = this;
    const box = topUp?.box ?? 0;
    const { mean, low, high, ...rest } = this.toppedUp.interval(confidence, box > 0, certain);
    const balls = (share: number | null): number | null => (share === null ? null : share * box);
    return {
      balls_topped_up_per_show: { mean: balls(mean), low: balls(low), high: balls(high), ...rest },
      box_left_balls:
        topUp === undefined ? null : meanOverShows(this.left, confidence, certain, { min: 0, max: box }),
      box_empty_risk: topUp === undefined ? null : clusteredProportion(this.empty, 1, confidence),
    };
  }
}
