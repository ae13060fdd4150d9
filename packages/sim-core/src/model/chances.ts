import { StreamBank, streamKey } from '../random/index.js';
import type { DrawSource } from './drawTable.js';

/** The odds in a loop, by number: the same in all its shows. No show changes it. */
export class ChanceTable {
  readonly sources: readonly DrawSource[];
  /** ln(1 - p) of each. */
  readonly logFail: Float64Array;

  constructor(sources: readonly (DrawSource & { readonly probability: number })[]) {
    this.sources = sources;
    this.logFail = Float64Array.from(sources, ({ probability }) => Math.log1p(-probability));
  }
}

/**
 * Repeated trials with small or large odds (a ball leaks, a ball is missed), by number.
 *
 * Instead of one uniform number for each trial it draws, by inversion, how many trials fail before the next success:
 * gap = floor(ln u / ln(1 - p)), the geometric distribution (Devroye, Non-Uniform Random Variate Generation, 1986,
 * X.2; from memory). The same in distribution, and one random number for each success instead of one for each trial.
 */
export class Chances {
  private readonly bank: StreamBank;
  private readonly sources: readonly DrawSource[];
  private readonly seed: number;
  private readonly replication: number;
  /** Trials that still fail before the next success. */
  private readonly gap: Float64Array;
  private readonly logFail: Float64Array;

  constructor(table: ChanceTable, seed: number, replication: number) {
    const n = table.sources.length;
    this.bank = new StreamBank(n);
    this.sources = table.sources;
    this.seed = seed;
    this.replication = replication;
    this.gap = new Float64Array(n).fill(Infinity);
    this.logFail = table.logFail;
    this.open();
  }

  /** From now on all streams are those of this branch; gaps are drawn anew, since trials forget how many failed before. */
  renew(branch: string): void {
    this.open(branch);
  }

  private open(branch?: string): void {
    const { seed, replication } = this;
    for (const [i, { place, purpose }] of this.sources.entries()) {
      if (this.logFail[i] === 0) continue;
      const address = { seed, replication, place, purpose };
      this.bank.open(i, streamKey(branch === undefined ? address : { ...address, branch }));
      this.gap[i] = this.nextGap(i);
    }
  }

  /** Makes one trial; true when it succeeds. */
  happens(i: number): boolean {
    if (this.gap[i]-- > 0) return false;
    this.gap[i] = this.nextGap(i);
    return true;
  }

  /** How many trials are sure to fail from now on. */
  failuresLeft(i: number): number {
    return this.gap[i];
  }

  /** Makes so many trials at once that are sure to fail: not more than {@link failuresLeft}. */
  fail(i: number, trials: number): void {
    this.gap[i] -= trials;
  }

  private nextGap(i: number): number {
    return Math.floor(Math.log(this.bank.next(i)) / this.logFail[i]);
  }
}
