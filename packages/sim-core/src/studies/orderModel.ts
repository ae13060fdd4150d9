import { normalQuantile } from '../numerics/index.js';
import { FittedOrders, type OrderSeen } from './fittedOrders.js';

/** Older ones are forgotten, earlier where comparing two orders takes long. */
const MOST_SEEN = 120;
const MOST_COMPARED = 20_000;
const FEWEST_SEEN = 30;
/** From where the noise is looked for the first time. */
const NOISE_FIRST = 2;

/**
 * Learns from orders that were simulated what others may come to: a sum of what it costs that a module comes right after
 * another, that it comes anywhere behind another, and the rough figure times a factor, all taken as normal before anything is
 * known (Bayesian linear regression, or a Gaussian process with that kernel: Rasmussen and Williams 2006, Gaussian Processes
 * for Machine Learning, 2.1-2.2, from memory). What all orders of a round have in common, its luck, is a term of its own.
 */
export class OrderModel {
  private readonly seen: OrderSeen[] = [];
  private readonly count: number;
  private readonly closed: boolean;
  private readonly normal: () => number;
  private fitted: FittedOrders | undefined;
  private noiseLevel = NOISE_FIRST;

  constructor(count: number, closed: boolean, uniform: () => number) {
    this.count = count;
    this.closed = closed;
    this.normal = () => normalQuantile(Math.min(1 - 1e-12, Math.max(1e-12, uniform())));
  }

  add(seen: OrderSeen): void {
    this.seen.push(seen);
    this.fitted = undefined;
    const most = Math.max(FEWEST_SEEN, Math.min(MOST_SEEN, Math.floor(MOST_COMPARED / this.count)));
    if (this.seen.length > most) this.seen.shift();
  }

  /** Learns from all that was seen; undefined where all orders came to the same. */
  fit(): FittedOrders | undefined {
    this.fitted ??= this.newFit();
    this.noiseLevel = this.fitted?.noiseLevel ?? this.noiseLevel;
    return this.fitted;
  }

  private newFit(): FittedOrders | undefined {
    const seen = [...this.seen];
    const means = new Map<number, { sum: number; count: number }>();
    for (const { round, value } of seen) {
      const mean = means.get(round) ?? { sum: 0, count: 0 };
      means.set(round, { sum: mean.sum + value, count: mean.count + 1 });
    }
    const centred = seen.map(({ round, value }) => {
      const { sum, count } = means.get(round) ?? { sum: value, count: 1 };
      return value - sum / count;
    });
    const spread = deviation(centred);
    if (!tells(spread, Math.max(...seen.map(({ value }) => Math.abs(value))))) return undefined;
    const strains = seen.map(({ strain }) => strain);
    const centre = strains.reduce((sum, one) => sum + one, 0) / strains.length;
    const strainSpread = deviation(strains.map((one) => one - centre));
    const scale = (strain: number): number =>
      tells(strainSpread, Math.abs(centre)) ? (strain - centre) / strainSpread : 0;
    return new FittedOrders({
      seen,
      // Without the rough figure, which counts once before anything is known.
      left: centred.map((value, i) => value / spread - scale(strains[i] ?? 0)),
      count: this.count,
      closed: this.closed,
      scale,
      normal: this.normal,
      noiseLevel: this.noiseLevel,
    });
  }
}

/** Whether a spread is more than what rounding leaves. */
function tells(spread: number, size: number): boolean {
  return spread > 1e-9 * size;
}

function deviation(centred: readonly number[]): number {
  return Math.sqrt(centred.reduce((sum, x) => sum + x * x, 0) / Math.max(1, centred.length - 1));
}
