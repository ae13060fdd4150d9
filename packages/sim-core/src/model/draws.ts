import {
  buildDistribution,
  type Distribution,
  type DistributionSpec,
  lognormalParameters,
} from '../distributions/index.js';
import { normalQuantile } from '../numerics/index.js';
import { StreamBank, streamKey } from '../random/index.js';
import { onTick } from './tick.js';

const CONSTANT = 0;
const UNIFORM = 1;
const EXPONENTIAL = 2;
const LOGNORMAL = 3;
const OTHER = 4;

/** What a draw is for; with seed and replication it names the stream. */
export interface DrawSource {
  readonly place: string | null;
  readonly purpose: string;
}

/**
 * All random draws of one replication, by number: each a stream of its own with the distribution drawn from it.
 *
 * The common families are drawn by a switch over small integers instead of a call through an interface: one call site
 * that sees ten kinds of distribution object costs more than the draw. Values are the same as the distribution's own
 * `sample`, rounded to a tick, which a test compares.
 */
export class Draws {
  private readonly bank: StreamBank;
  private readonly kind: Int8Array;
  private readonly a: Float64Array;
  private readonly b: Float64Array;
  private readonly others: (Distribution | undefined)[];

  constructor(
    sources: readonly (DrawSource & { readonly distribution?: DistributionSpec })[],
    seed: number,
    replication: number,
  ) {
    const n = sources.length;
    this.bank = new StreamBank(n);
    this.kind = new Int8Array(n);
    this.a = new Float64Array(n);
    this.b = new Float64Array(n);
    this.others = new Array<Distribution | undefined>(n).fill(undefined);
    for (const [i, { place, purpose, distribution }] of sources.entries()) {
      if (distribution === undefined || distribution.family !== 'constant') {
        this.bank.open(i, streamKey({ seed, replication, place, purpose }));
      }
      if (distribution !== undefined) this.describe(i, distribution);
    }
  }

  /** The next uniform number of this stream, above 0 and below 1. */
  uniform(i: number): number {
    return this.bank.next(i);
  }

  /** The next time drawn from this stream's distribution, seconds, on a tick of the clock. */
  draw(i: number): number {
    // Constants were put on a tick once and for all.
    return this.kind[i] === CONSTANT ? this.a[i] : onTick(this.value(i));
  }

  private value(i: number): number {
    switch (this.kind[i]) {
      case UNIFORM:
        return this.a[i] + this.b[i] * this.bank.next(i);
      case EXPONENTIAL:
        return -this.a[i] * Math.log1p(-this.bank.next(i));
      case LOGNORMAL:
        return Math.exp(this.a[i] + this.b[i] * normalQuantile(this.bank.next(i)));
      default:
        return (this.others[i] as Distribution).quantile(this.bank.next(i));
    }
  }

  private describe(i: number, spec: DistributionSpec): void {
    const built = buildDistribution(spec);
    switch (spec.family) {
      case 'constant':
        this.kind[i] = CONSTANT;
        this.a[i] = onTick(spec.value);
        break;
      case 'uniform':
        this.kind[i] = UNIFORM;
        this.a[i] = spec.min;
        this.b[i] = spec.max - spec.min;
        break;
      case 'exponential':
        this.kind[i] = EXPONENTIAL;
        this.a[i] = spec.mean;
        break;
      case 'lognormal': {
        const { mu, sigma } = lognormalParameters(spec);
        this.kind[i] = LOGNORMAL;
        this.a[i] = mu;
        this.b[i] = sigma;
        break;
      }
      default:
        this.kind[i] = OTHER;
        this.others[i] = built;
    }
  }
}
