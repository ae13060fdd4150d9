import {
  buildDistribution,
  type Distribution,
  type DistributionSpec,
  lognormalParameters,
} from '../distributions/index.js';
import { onTick } from './tick.js';

export const PLAIN = 0; // a uniform number as it is
export const UNIFORM = 1;
export const EXPONENTIAL = 2;
export const LOGNORMAL = 3;
export const OTHER = 4;

/** Most values drawn from one stream ahead of their use. */
export const LARGEST_BATCH = 64;

/** What a draw is for; with seed and replication it names the stream. */
export interface DrawSource {
  readonly place: string | null;
  readonly purpose: string;
}

/** What is drawn in a loop, by number: the same in all its shows. No show changes it. */
export class DrawTable {
  readonly sources: readonly DrawSource[];
  readonly kind: Int8Array;
  readonly a: Float64Array;
  readonly b: Float64Array;
  readonly others: readonly (Distribution | undefined)[];
  /** Where the values drawn ahead of each begin, and how far one goes on with each use: 0 for a constant. */
  readonly first: Int32Array;
  readonly step: Uint8Array;
  /** How many places there are in all; what stands in the place of a constant. */
  readonly places: number;
  readonly constant: Float64Array;

  constructor(sources: readonly (DrawSource & { readonly distribution?: DistributionSpec })[]) {
    const n = sources.length;
    this.sources = sources;
    this.kind = new Int8Array(n).fill(PLAIN);
    this.a = new Float64Array(n);
    this.b = new Float64Array(n);
    this.first = new Int32Array(n);
    let places = 0;
    for (const [i, { distribution }] of sources.entries()) {
      this.first[i] = places;
      places += distribution?.family === 'constant' ? 1 : LARGEST_BATCH;
    }
    this.places = places;
    this.constant = new Float64Array(n);
    this.step = new Uint8Array(n).fill(1);
    this.others = sources.map(({ distribution }, i) => distribution && this.describe(i, distribution));
  }

  /** The distribution itself of families that are not drawn by a switch. */
  private describe(i: number, spec: DistributionSpec): Distribution | undefined {
    switch (spec.family) {
      case 'constant':
        this.constant[i] = onTick(spec.value);
        this.step[i] = 0;
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
        return buildDistribution(spec);
    }
    return undefined;
  }
}
