import { gammaQuantile } from '../../numerics/index.js';
import { requireChance, requireCount } from '../requireNumbers.js';
import {
  bestMean,
  type CopyCount,
  meanInformation,
  meanTerms,
  shapeTerms,
} from './gammaPoissonLikelihood.js';
import { type GammaFamily, gammaPoissonFit, requireCopies } from './gammaPoissonFit.js';

/** Points at which the family's shape and mean are tried. */
const SHAPES = 48;
const MEANS = 25;
/** Means are tried until the logarithm of the density has fallen so far, */
const FALL = 14;
/** or so far away in ln m: with few events and copies that differ much hardly anything bounds the mean. */
const FARTHEST = 40;

export interface PooledRatesOptions {
  /** Logarithm of the prior density of the family's shape and rate, up to a constant. @default see pooledRates */
  readonly logPrior?: (shape: number, rate: number) => number;
}

/** What is known of one copy, its family heard. */
export interface PooledRate {
  /** Its own events over its own exposure. */
  readonly own: number;
  /** Mean of what its rate may be, drawn to the family. */
  readonly mean: number;
  readonly sd: number;
  readonly low: number;
  readonly high: number;
  /** How far it is drawn: 0 stays by its own count, 1 takes the family's rate. */
  readonly drawn: number;
  /** The same knowledge as a gamma distribution: as if so many events had been seen over so much. */
  readonly events: number;
  readonly exposure: number;
}

/** Copies of one design, pooled. */
export interface PooledRates {
  /** In the order given. */
  readonly copies: readonly PooledRate[];
  /** Mean rate of the family: the middle of what it may be. */
  readonly familyMean: number;
  /** The most likely family, or null when the counts differ no more than by chance. */
  readonly family: GammaFamily | null;
  readonly confidence: number;
}

/**
 * Rates of several copies of one design: each copy's own count, drawn to its family as far as the copies are alike.
 *
 * Counts are Poisson, rates gamma with shape a and mean m. Plain empirical Bayes puts in the most likely a and m as if they
 * were known, so its intervals are too short with few copies, and it says that all are the same when the counts happen to
 * differ little. So a and m are averaged over what the counts leave open: prior uniform for the shrinkage a / (a + z), with
 * z the mean count of a copy (Christiansen & Morris 1997, JASA 92, 618-632), and Jeffreys' prior for m at each a. Each
 * copy's knowledge is then taken as the gamma distribution of the same mean and variance, which gives its limits; a copy
 * that was never seen to stop has the lower limit 0.
 *
 * @param copies at least two
 * @throws ParameterError when there are fewer than two copies or a number is out of range
 * @example
 * const { copies } = pooledRates([{ events: 0, exposure: 1 }, { events: 6, exposure: 1 }, { events: 3, exposure: 1 }], 0.95);
 * copies[0].mean > 0 && copies[1].mean < 6 // => true
 */
export function pooledRates(
  copies: readonly CopyCount[],
  confidence: number,
  options: PooledRatesOptions = {},
): PooledRates {
  requireChance(confidence, 'pooledRates', 'confidence');
  requireCount(copies.length, 2, 'pooledRates', 'copies.length');
  requireCopies(copies, 'pooledRates');
  const points = familyPoints(copies, options.logPrior);
  const tail = (1 - confidence) / 2;
  return {
    copies: copies.map(({ events, exposure }) => {
      let mean = 0;
      let square = 0;
      let drawn = 0;
      for (const { shape, rate, weight } of points) {
        const a = shape + events;
        const b = rate + exposure;
        mean += (weight * a) / b;
        square += (weight * a * (a + 1)) / (b * b);
        drawn += (weight * rate) / b;
      }
      const variance = square - mean * mean;
      const like = { events: (mean * mean) / variance, exposure: mean / variance };
      return {
        own: events / exposure,
        mean,
        sd: Math.sqrt(variance),
        low: events === 0 ? 0 : gammaQuantile(tail, like.events) / like.exposure,
        high: gammaQuantile(1 - tail, like.events) / like.exposure,
        drawn,
        ...like,
      };
    }),
    familyMean: middleMean(points),
    family: gammaPoissonFit(copies),
    confidence,
  };
}

interface FamilyPoint extends GammaFamily {
  readonly weight: number;
}

/** Families the counts leave open, with their weights, which add up to 1. */
function familyPoints(
  copies: readonly CopyCount[],
  logPrior: PooledRatesOptions['logPrior'],
): readonly FamilyPoint[] {
  const events = copies.reduce((sum, copy) => sum + copy.events, 0);
  const typical = Math.max(events, 0.5) / copies.length;
  const found: { shape: number; rate: number; logWeight: number }[] = [];
  for (let i = 0; i < SHAPES; i++) {
    // The shrinkage at a typical count, in the middle of equal parts.
    const shrinkage = (i + 0.5) / SHAPES;
    const shape = (typical * shrinkage) / (1 - shrinkage);
    const ofShape = shapeTerms(copies, shape);
    const logDensity = (logMean: number): number => {
      const mean = Math.exp(logMean);
      return ofShape + meanTerms(copies, shape, mean) + 0.5 * Math.log(meanInformation(copies, shape, mean));
    };
    const centre = Math.log(bestMean(copies, shape, 'jeffreys'));
    const low = fallenTo(logDensity, centre, -1);
    const step = (fallenTo(logDensity, centre, 1) - low) / (MEANS - 1);
    for (let j = 0; j < MEANS; j++) {
      const logMean = low + j * step;
      const rate = shape / Math.exp(logMean);
      // Densities in the shrinkage and ln m: the Jacobian of (shape, rate) is rate x d shape / d shrinkage.
      const prior =
        logPrior === undefined
          ? 0
          : logPrior(shape, rate) +
            Math.log(rate * typical) -
            2 * Math.log(1 - shrinkage) -
            0.5 * Math.log(meanInformation(copies, shape, Math.exp(logMean)));
      found.push({ shape, rate, logWeight: logDensity(logMean) + prior + Math.log(step) });
    }
  }
  const most = found.reduce((highest, { logWeight }) => Math.max(highest, logWeight), -Infinity);
  const weights = found.map(({ logWeight }) => Math.exp(logWeight - most));
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  return found.map(({ shape, rate }, i) => ({ shape, rate, weight: (weights[i] ?? 0) / all }));
}

/** The median of the family's mean. */
function middleMean(points: readonly FamilyPoint[]): number {
  const sorted = points
    .map(({ shape, rate, weight }) => ({ mean: shape / rate, weight }))
    .toSorted((a, b) => a.mean - b.mean);
  let sum = 0;
  for (const { mean, weight } of sorted) {
    sum += weight;
    if (sum >= 0.5) return mean;
  }
  return NaN;
}

/** Where, going this way from the hill, the logarithm of a density has fallen by {@link FALL}. */
function fallenTo(logDensity: (x: number) => number, hill: number, way: 1 | -1): number {
  const ground = logDensity(hill) - FALL;
  let near = 0;
  let far = 0.1;
  while (far < FARTHEST && logDensity(hill + way * far) > ground) [near, far] = [far, 2 * far];
  for (let i = 0; i < 6; i++) {
    const middle = (near + far) / 2;
    if (logDensity(hill + way * middle) > ground) near = middle;
    else far = middle;
  }
  return hill + way * far;
}
