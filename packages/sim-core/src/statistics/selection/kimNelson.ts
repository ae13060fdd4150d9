import { requireParameter } from '../../errors/index.js';
import { momentsOf } from '../moments.js';
import { kimNelsonEta } from './kimNelsonEta.js';

/** What is to be selected and how surely. */
export interface KimNelsonOptions {
  /** Systems, from 2. */
  readonly k: number;
  /** Replications of each before the first look, from 2; 10 or more are usual. */
  readonly n0: number;
  /** Chance to select a wrong one, above 0 and below (k - 1) / k. */
  readonly alpha: number;
  /** Differences below this do not matter, in the unit of the values, above 0. */
  readonly delta: number;
}

/** A selection under way: it is fed with values and says which systems are still in play. */
export class KimNelson {
  private readonly options: KimNelsonOptions;
  /** h^2 of the procedure. */
  private readonly hSquared: number;
  /** Values of the first stage, one list for each system; emptied after it. */
  private first: number[][];
  private readonly sums: number[];
  /** Variance of the difference of each two systems in the first stage, times h^2 / delta^2: replications. */
  private reach: readonly (readonly number[])[] = [];
  private longest = Infinity;
  private left: readonly number[];
  private done = 0;
  private over = false;

  constructor(options: KimNelsonOptions) {
    const { k, n0, alpha, delta } = options;
    this.hSquared = 2 * kimNelsonEta(k, n0, alpha) * (n0 - 1);
    requireParameter(delta > 0 && delta < Infinity, 'kimNelson', 'delta', delta, 'a finite number above 0');
    this.options = options;
    this.left = Array.from({ length: k }, (_, i) => i);
    this.first = this.left.map(() => []);
    this.sums = this.left.map(() => 0);
  }

  /** The systems that may still be the best, by number from 0, in rising order. */
  get inPlay(): readonly number[] {
    return this.left;
  }

  /** Replications so far of each system still in play. */
  get replications(): number {
    return this.done;
  }

  get finished(): boolean {
    return this.over;
  }

  /** Replications of each after which it is over for sure; null before the end of the first stage. */
  get longestReplications(): number | null {
    return this.longest === Infinity ? null : this.longest + 1;
  }

  /** The system selected; null until finished. */
  get best(): number | null {
    return this.over ? (this.left[0] ?? null) : null;
  }

  /**
   * Takes one replication of every system still in play.
   *
   * @param values in the order of {@link inPlay}, all finite
   * @throws ParameterError when the selection is finished, or the values are too many, too few or not finite
   */
  observe(values: readonly number[]): void {
    requireParameter(!this.over, 'kimNelson.observe', 'finished', this.over, 'false to take more values');
    requireParameter(
      values.length === this.left.length,
      'kimNelson.observe',
      'values.length',
      values.length,
      `${this.left.length}, one for each system in play`,
    );
    for (const [place, value] of values.entries())
      requireParameter(
        Number.isFinite(value),
        'kimNelson.observe',
        `values[${place}]`,
        value,
        'a finite number',
      );
    const { n0 } = this.options;
    this.done++;
    for (const [place, system] of this.left.entries()) {
      const value = values[place] ?? NaN;
      this.sums[system] = at(this.sums, system) + value;
      if (this.done <= n0) this.first[system]?.push(value);
    }
    if (this.done < n0) return;
    if (this.done === n0) this.endFirstStage();
    if (this.done > this.longest) this.left = [this.leader()];
    else this.screen();
    this.over = this.left.length === 1;
  }

  private endFirstStage(): void {
    const scale = this.hSquared / this.options.delta ** 2;
    this.reach = this.first.map((a) =>
      this.first.map((b) => scale * momentsOf(a.map((x, j) => x - at(b, j))).variance),
    );
    this.first = [];
    // N_il is the whole part of the reach; past the largest of them no difference is left to wait for.
    this.longest = this.reach.flat().reduce((most, reach) => Math.max(most, Math.floor(reach)), 0);
  }

  /** Drops every system whose mean is further below that of another than the width that is left. */
  private screen(): void {
    const { delta } = this.options;
    const r = this.done;
    // Of sums instead of means: r W_il = max(0, delta / 2 (h^2 S_il^2 / delta^2 - r)).
    const width = (i: number, l: number): number =>
      Math.max(0, (delta / 2) * (at(this.reach[i] ?? [], l) - r));
    const all = this.left;
    this.left = all.filter((i) =>
      all.every((l) => l === i || at(this.sums, i) >= at(this.sums, l) - width(i, l)),
    );
  }

  /** The system in play with the largest mean, the first of equals. */
  private leader(): number {
    return this.left.reduce((best, i) => (at(this.sums, i) > at(this.sums, best) ? i : best));
  }
}

/**
 * Selects the system with the largest mean, one replication of all at a time, and drops on the way those that cannot be it:
 * the fully sequential procedure of Kim & Nelson (2001, ACM Transactions on Modeling and Computer Simulation 11, 251-273)
 * with c = 1.
 *
 * From the first n0 replications S_il^2, the variance of the difference of each two; h^2 = 2 eta (n0 - 1) (see
 * {@link kimNelsonEta}). After r replications of each a system i is dropped when its mean is below that of some l by more
 * than W_il = max(0, delta / (2 r) x (h^2 S_il^2 / delta^2 - r)). It ends with one system left, at the latest after the
 * largest floor(h^2 S_il^2 / delta^2) + 1 replications. The best is selected with chance 1 - alpha at least when it leads by
 * delta or more; else what is selected is usually within delta of it. Replications are independent and normal (means of
 * many are near enough); the systems may, and should, share their random numbers. For the smallest mean feed the values
 * with the sign turned.
 *
 * @returns a selection to be fed with {@link KimNelson.observe}
 * @throws ParameterError when an option is out of range
 * @example
 * const selection = kimNelson({ k: 3, n0: 4, alpha: 0.05, delta: 1 });
 * const noise = [0.3, -0.2, 0.1, -0.4, 0.2, 0];
 * for (let i = 0; !selection.finished; i++)
 *   selection.observe(selection.inPlay.map((system) => [5, 7, 4][system] + noise[(i + system) % 6]));
 * [selection.best, selection.replications] // => [1, 4]
 */
export function kimNelson(options: KimNelsonOptions): KimNelson {
  return new KimNelson(options);
}

function at(values: readonly number[], index: number): number {
  return values[index] ?? NaN;
}
