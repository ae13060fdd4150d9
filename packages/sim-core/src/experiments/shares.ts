import { clopperPearson, type Estimate, meanInterval, meanOverShows, Moments } from '../statistics/index.js';
import { unlessImpossible } from './unlessImpossible.js';

/** With this many shows that saw any, Student's t is near enough. */
const MANY = 30;
const SHARE = { min: 0, max: 1 };

/**
 * A share of time that is zero in many shows, such as the share out of the loop: its moments over all replications, and
 * over those in which it was above zero.
 *
 * When 30 replications or more saw any, or all did, its interval is Student's t. When fewer did, the values are far too
 * skewed for that; then the share is taken as P x S with P the share of replications that saw any and S the mean of these,
 * and the limits are those of P (Clopper-Pearson) times those of S (Student's t, cut off at 0 and 1), each at 1 - alpha/2,
 * so that the whole is at least 1 - alpha (Bonferroni). With fewer than two that saw any, S may be anything up to 1.
 */
export class Shares {
  private readonly all = new Moments();
  private readonly seen = new Moments();

  add(share: number): void {
    this.all.add(share);
    if (share > 0) this.seen.add(share);
  }

  /**
   * @param possible false when the scenario rules it out: then it is zero for certain
   * @param certain that every show is the same, by the scenario @default false
   */
  interval(confidence: number, possible: boolean, certain = false): Estimate {
    const { all, seen } = this;
    const estimate = meanInterval(all, confidence, SHARE);
    if (all.count < 2 || !possible) return unlessImpossible(estimate, possible);
    if (seen.count >= MANY || seen.count === all.count) return meanOverShows(all, confidence, certain, SHARE);
    const each = (1 + confidence) / 2;
    const chance = clopperPearson(seen.count, all.count, each);
    const { low, high } = meanInterval(seen, each, SHARE);
    return { ...estimate, low: chance.low * (low ?? 0), high: chance.high * (high ?? 1) };
  }
}
