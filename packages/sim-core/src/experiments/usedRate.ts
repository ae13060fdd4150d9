import { gammaQuantile, studentTQuantile } from '../numerics/index.js';
import { areAlike, type Estimate, ofAlike } from '../statistics/index.js';

/** Fewer events than this are too few for Student's t: counts are too skewed. */
const FEW = 30;

/**
 * Events per hour of use, when the hours of use differ from show to show: all events over all hours.
 *
 * A mean of the shows' own rates would lean towards short uses, which end because something went wrong; the ratio of sums
 * does not. With 30 events or more its interval is r +- t(n - 1) s / (sqrt(n) x), with x the mean hours of use and s the
 * standard deviation of events - r hours over the shows (Cochran 1977, Sampling Techniques, 6.4, from memory). With fewer
 * the exact limits of a Poisson count over the hours there were (Garwood 1936, Biometrika 28, 437-442, from memory).
 */
export class UsedRate {
  private count = 0;
  private used = 0;
  private meanEvents = 0;
  private meanHours = 0;
  /** Sums of squared and mixed deviations, updated as in Welford 1962. */
  private squaresEvents = 0;
  private squaresHours = 0;
  private products = 0;

  /** Adds a show; without use it has no hours and no events. */
  add(events: number, hours: number): void {
    this.count++;
    if (hours > 0) this.used++;
    const events0 = events - this.meanEvents;
    const hours0 = hours - this.meanHours;
    this.meanEvents += events0 / this.count;
    this.meanHours += hours0 / this.count;
    this.squaresEvents += events0 * (events - this.meanEvents);
    this.squaresHours += hours0 * (hours - this.meanHours);
    this.products += events0 * (hours - this.meanHours);
  }

  /**
   * @param possible false when the scenario rules such events out: then the rate is zero for certain
   * @param certain that every show is the same, by the scenario @default false
   * @returns null in every number when there was no use; `replications` counts the shows with any
   */
  interval(confidence: number, possible: boolean, certain = false): Estimate {
    const { count: n, used } = this;
    const common = { confidence, replications: used };
    if (used === 0) return { mean: null, low: null, high: null, ...common };
    const mean = this.meanEvents / this.meanHours;
    if (n < 2) return { mean, low: null, high: null, ...common };
    if (!possible) return { mean, low: mean, high: mean, ...common };
    const tail = (1 - confidence) / 2;
    // Events are whole; their mean times the shows is so only up to rounding.
    const events = Math.round(this.meanEvents * n);
    const hours = this.meanHours * n;
    if (events < FEW) {
      return {
        mean,
        low: events > 0 ? gammaQuantile(tail, events) / hours : 0,
        high: gammaQuantile(1 - tail, events + 1) / hours,
        ...common,
      };
    }
    const squares = this.squaresEvents - 2 * mean * this.products + mean * mean * this.squaresHours;
    const error = Math.sqrt(Math.max(0, squares) / (n - 1) / n) / this.meanHours;
    if (areAlike(error ** 2, mean)) return ofAlike({ mean, low: mean, high: mean, ...common }, certain);
    const half = studentTQuantile(1 - tail, n - 1) * error;
    return { mean, low: Math.max(0, mean - half), high: mean + half, ...common };
  }
}
