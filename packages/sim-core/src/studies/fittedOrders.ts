import { cholesky, solveByRoot, solveLower } from '../numerics/index.js';

/** What an order came to in a round, beside the others of that round on the same shows: less is better. */
export interface OrderSeen {
  /** Indexes of modules. */
  readonly order: readonly number[];
  /** Its rough figure. */
  readonly strain: number;
  readonly round: number;
  readonly value: number;
  readonly shows: number;
}

/** A guess at what an order costs, in standard deviations of what has been seen: only differences mean anything. */
export interface OrderGuess {
  /** From an order and its rough figure. */
  readonly cost: (order: readonly number[], strain: number) => number;
}

/** Variances before anything is seen, in those of what orders came to: the sum over a whole order. */
const NEIGHBOURS = 1;
const SIDES = 0.3;
const ITS_OWN = 0.1;
const STRAIN = 1;
/** Of one round against another: unlimited, as far as rounding allows. */
const ROUND = 100;
/** Of one show, tried one after the other. */
const NOISES = [0.01, 0.1, 0.3, 1, 3];
/** What there is to learn from. */
export interface Learned {
  /** Which of the noises was the most likely before: only those next to it are tried. */
  readonly noiseLevel: number;
  readonly seen: readonly OrderSeen[];
  readonly left: readonly number[];
  readonly count: number;
  readonly closed: boolean;
  readonly scale: (strain: number) => number;
  readonly normal: () => number;
}

/** What has been learned, as guesses. */
export class FittedOrders {
  private readonly learned: Learned;
  private readonly places: readonly Int32Array[];
  private readonly root: readonly Float64Array[];
  private readonly noise: number;
  /** Which of the noises was the most likely. */
  readonly noiseLevel: number;
  private readonly mean: Weights;

  constructor(learned: Learned) {
    this.learned = learned;
    this.places = learned.seen.map(({ order }) => placesOf(order));
    const kernel = learned.seen.map((_, i) => Float64Array.from(learned.seen, (__, j) => this.alike(i, j)));
    const near = NOISES.map((noise, level) => ({ noise, level })).filter(
      ({ level }) => Math.abs(level - learned.noiseLevel) <= 1,
    );
    const tried = near.map(({ noise, level }) => {
      const root = cholesky(
        kernel.map((row, i) => {
          const noisy = row.slice();
          noisy[i] = (noisy[i] ?? 0) + noise / (learned.seen[i]?.shows ?? 1);
          return noisy;
        }),
      );
      return { noise, level, root, doubt: doubtOf(root, learned.left) };
    });
    // The noise that makes what was seen the most likely.
    const best = tried.reduce((least, one) => (one.doubt < least.doubt ? one : least));
    this.root = best.root;
    this.noise = best.noise;
    this.noiseLevel = best.level;
    this.mean = this.weights(solveByRoot(this.root, learned.left));
  }

  /** The best guess. */
  get best(): OrderGuess {
    return this.guess(this.mean);
  }

  /** What an order that was simulated comes to by the best guess, with what is peculiar to it. */
  triedCost(order: readonly number[], strain: number): number {
    return this.best.cost(order, strain) + (this.mean.own.get(keyOf(order)) ?? 0);
  }

  /**
   * One of the guesses that what was seen allows, drawn by its probability (Thompson sampling; the draw as in Matheron's
   * rule: a draw from before, corrected by what was seen).
   *
   * @param boldness 1 for all that is possible, 0 for the best guess
   */
  drawn(boldness: number): OrderGuess {
    const { seen, left, count, normal } = this.learned;
    const before = emptyWeights(count);
    for (let k = 0; k < before.after.length; k++) before.after[k] = Math.sqrt(NEIGHBOURS / count) * normal();
    const pairs = Math.max(1, (count * (count - 1)) / 2);
    for (let a = 0; a < count; a++)
      for (let b = a + 1; b < count; b++) before.behind[a * count + b] = Math.sqrt(SIDES / pairs) * normal();
    before.strain = Math.sqrt(STRAIN) * normal();
    const own = new Map<string, number>();
    const rounds = new Map<number, number>();
    const off = seen.map(({ order, strain, round, shows }, i) => {
      const key = keyOf(order);
      if (!own.has(key)) own.set(key, Math.sqrt(ITS_OWN) * normal());
      if (!rounds.has(round)) rounds.set(round, Math.sqrt(ROUND) * normal());
      const noise = Math.sqrt(this.noise / shows) * normal();
      const drawn = this.sum(before, order, strain) + (own.get(key) ?? 0) + (rounds.get(round) ?? 0) + noise;
      return (left[i] ?? 0) - drawn;
    });
    const correction = this.weights(solveByRoot(this.root, off));
    const mix = (mean: number, one: number, two: number): number =>
      (1 - boldness) * mean + boldness * (one + two);
    const mixed = (of: 'after' | 'behind'): Float64Array =>
      this.mean[of].map((value, k) => mix(value, before[of][k] ?? 0, correction[of][k] ?? 0));
    return this.guess({
      after: mixed('after'),
      behind: mixed('behind'),
      strain: mix(this.mean.strain, before.strain, correction.strain),
      own: this.mean.own,
    });
  }

  private guess(weights: Weights): OrderGuess {
    const { scale } = this.learned;
    return { cost: (order, strain) => scale(strain) + this.sum(weights, order, strain) };
  }

  private sum({ after, behind, strain: factor }: Weights, order: readonly number[], strain: number): number {
    const { count, closed, scale } = this.learned;
    let sum = factor * scale(strain);
    let before = closed ? (order.at(-1) ?? -1) : -1;
    for (let i = 0; i < order.length; i++) {
      const m = order[i] ?? 0;
      if (before >= 0) sum += after[before * count + m] ?? 0;
      before = m;
      for (let j = i + 1; j < order.length; j++) {
        const other = order[j] ?? 0;
        sum += m < other ? (behind[m * count + other] ?? 0) : -(behind[other * count + m] ?? 0);
      }
    }
    return sum;
  }

  /** What two of those seen have in common. */
  private alike(i: number, j: number): number {
    const { seen, count, closed, scale } = this.learned;
    const [one, two] = [seen[i], seen[j]];
    const [p, q] = [this.places[i], this.places[j]];
    if (!one || !two || !p || !q) return 0;
    let neighbours = 0;
    let sides = 0;
    for (let k = 0; k < count; k++) {
      const m = one.order[k] ?? 0;
      const next = k + 1 < count ? (one.order[k + 1] ?? 0) : closed ? (one.order[0] ?? 0) : -1;
      if (next >= 0 && follows(q[m] ?? 0, q[next] ?? 0, count, closed)) neighbours++;
      for (let other = m + 1; other < count; other++)
        sides += (p[m] ?? 0) < (p[other] ?? 0) === (q[m] ?? 0) < (q[other] ?? 0) ? 1 : -1;
    }
    const pairs = Math.max(1, (count * (count - 1)) / 2);
    return (
      (NEIGHBOURS * neighbours) / count +
      (SIDES * sides) / pairs +
      STRAIN * scale(one.strain) * scale(two.strain) +
      (neighbours >= count - 1 && keyOf(one.order) === keyOf(two.order) ? ITS_OWN : 0) +
      (one.round === two.round ? ROUND : 0)
    );
  }

  /** What each term costs, from how much of each of those seen is in the guess. */
  private weights(parts: readonly number[]): Weights {
    const { seen, count, closed, scale } = this.learned;
    const weights = emptyWeights(count);
    const pairs = Math.max(1, (count * (count - 1)) / 2);
    for (const [i, { order, strain }] of seen.entries()) {
      const part = parts[i] ?? 0;
      const places = this.places[i];
      for (let k = 0; k < count; k++) {
        const m = order[k] ?? 0;
        const next = k + 1 < count ? (order[k + 1] ?? 0) : closed ? (order[0] ?? 0) : -1;
        if (next >= 0) add(weights.after, m * count + next, (part * NEIGHBOURS) / count);
        for (let other = m + 1; other < count; other++)
          add(
            weights.behind,
            m * count + other,
            ((places?.[m] ?? 0) < (places?.[other] ?? 0) ? part : -part) * (SIDES / pairs),
          );
      }
      weights.strain += part * STRAIN * scale(strain);
      const key = keyOf(order);
      weights.own.set(key, (weights.own.get(key) ?? 0) + part * ITS_OWN);
    }
    return weights;
  }
}

interface Weights {
  /** By module and the one right after it. */
  readonly after: Float64Array;
  /** By two modules, the first of them by number: when it comes first; the contrary when it does not. */
  readonly behind: Float64Array;
  strain: number;
  /** By order: what is peculiar to it. */
  readonly own: Map<string, number>;
}

function emptyWeights(count: number): Weights {
  return {
    after: new Float64Array(count * count),
    behind: new Float64Array(count * count),
    strain: 0,
    own: new Map(),
  };
}

function keyOf(order: readonly number[]): string {
  return order.join(' ');
}

function placesOf(order: readonly number[]): Int32Array {
  const places = new Int32Array(order.length);
  for (const [place, m] of order.entries()) places[m] = place;
  return places;
}

function follows(place: number, next: number, count: number, closed: boolean): boolean {
  return next === place + 1 || (closed && next === 0 && place === count - 1);
}

function add(values: Float64Array, k: number, more: number): void {
  values[k] = (values[k] ?? 0) + more;
}

/** Minus twice the logarithm of how likely the values are, without what is the same for all. */
function doubtOf(root: readonly Float64Array[], values: readonly number[]): number {
  const fit = solveLower(root, values).reduce((sum, x) => sum + x * x, 0);
  return fit + 2 * root.reduce((sum, row, i) => sum + Math.log(row[i] ?? 1), 0);
}
