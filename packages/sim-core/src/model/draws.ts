import type { Distribution } from '../distributions/index.js';
import { normalQuantile } from '../numerics/index.js';
import { StreamBank, streamKey } from '../random/index.js';
import {
  type DrawSource,
  type DrawTable,
  EXPONENTIAL,
  LARGEST_BATCH,
  LOGNORMAL,
  PLAIN,
  UNIFORM,
} from './drawTable.js';
import { onTick } from './tick.js';

/**
 * All random draws of one replication, by number: each a stream of its own with the distribution drawn from it.
 *
 * Every stream belongs to one purpose, and what is left of it at the end of the show is never used; so its values can be
 * drawn before they are asked for, many in a row. In a loop without calls one draw need not wait for the last, and costs
 * less than half. Batches grow from one value to {@link LARGEST_BATCH}, because most streams are asked a few times only.
 *
 * The common families are drawn by a switch over small integers instead of a call through an interface: one call site
 * that sees ten kinds of distribution object costs more than the draw. Values are the same as the distribution's own
 * `sample`, rounded to a tick, which a test compares.
 */
export class Draws {
  private readonly bank: StreamBank;
  private readonly sources: readonly DrawSource[];
  private readonly seed: number;
  private readonly replication: number;
  private readonly kind: Int8Array;
  private readonly a: Float64Array;
  private readonly b: Float64Array;
  private readonly others: readonly (Distribution | undefined)[];
  /** Values drawn ahead, each stream from place `first` on; those from `at` to before `filled` are still to be used. */
  readonly values: Float64Array;
  private readonly first: Int32Array;
  private readonly at: Int32Array;
  /** How far `at` moves with each use: 0 for a constant, which stands in one place for ever. */
  private readonly step: Uint8Array;
  private readonly filled: Int32Array;

  constructor(table: DrawTable, seed: number, replication: number) {
    this.bank = new StreamBank(table.sources.length);
    this.sources = table.sources;
    this.seed = seed;
    this.replication = replication;
    this.kind = table.kind;
    this.a = table.a;
    this.b = table.b;
    this.others = table.others;
    this.first = table.first;
    this.step = table.step;
    this.values = new Float64Array(table.places);
    this.at = table.first.slice();
    this.filled = table.first.slice();
    for (let i = 0; i < this.step.length; i++) {
      if (this.step[i] > 0) continue;
      this.values[this.first[i]] = table.constant[i];
      this.filled[i]++;
    }
    this.open();
  }

  /** From now on all streams are those of this branch; what was drawn ahead of its use is forgotten. */
  renew(branch: string): void {
    this.open(branch);
  }

  /** Whether the times of stream i forget how long they have lasted. */
  isMemoryless(i: number): boolean {
    return this.kind[i] === EXPONENTIAL;
  }

  private open(branch?: string): void {
    const { seed, replication } = this;
    for (const [i, { place, purpose }] of this.sources.entries()) {
      if (this.step[i] === 0) continue;
      const address = { seed, replication, place, purpose };
      this.bank.open(i, streamKey(branch === undefined ? address : { ...address, branch }));
      this.at[i] = this.first[i];
      this.filled[i] = this.first[i];
    }
  }

  /** The next uniform number of a stream without a distribution, above 0 and below 1. */
  uniform(i: number): number {
    return this.values[this.place(i)];
  }

  /** The next time drawn from this stream's distribution, seconds, on a tick of the clock. */
  draw(i: number): number {
    return this.values[this.place(i)];
  }

  /**
   * Where in {@link values} the next one of stream i stands: for the hottest loop, because a small whole number is
   * handed back from a call at no cost, and any other number in an object of its own.
   */
  place(i: number): number {
    const at = this.at[i];
    if (at === this.filled[i]) return this.refill(i);
    this.at[i] = at + this.step[i];
    return at;
  }

  /** Draws the next batch of stream i, twice as long as the last, and gives the place of its first value. */
  private refill(i: number): number {
    const from = this.first[i];
    const to = from + Math.min(LARGEST_BATCH, Math.max(1, 2 * (this.filled[i] - from)));
    this.bank.fill(i, this.values, from, to);
    this.shape(i, from, to);
    this.at[i] = from + 1;
    this.filled[i] = to;
    return from;
  }

  /**
   * Makes times out of the uniform numbers in these places. Each step goes over all of them before the next one does:
   * so short a loop keeps the processor busy with several numbers at once.
   */
  private shape(i: number, from: number, to: number): void {
    const { values } = this;
    const a = this.a[i];
    const b = this.b[i];
    switch (this.kind[i]) {
      case PLAIN:
        return;
      case UNIFORM:
        for (let k = from; k < to; k++) values[k] = a + b * values[k];
        break;
      case EXPONENTIAL:
        for (let k = from; k < to; k++) values[k] = -a * Math.log1p(-values[k]);
        break;
      case LOGNORMAL:
        for (let k = from; k < to; k++) values[k] = a + b * normalQuantile(values[k]);
        for (let k = from; k < to; k++) values[k] = Math.exp(values[k]);
        break;
      default: {
        const other = this.others[i] as Distribution;
        for (let k = from; k < to; k++) values[k] = other.quantile(values[k]);
      }
    }
    for (let k = from; k < to; k++) values[k] = onTick(values[k]);
  }
}
