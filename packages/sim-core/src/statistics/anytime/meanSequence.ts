import { requireParameter } from '../../errors/index.js';
import type { Estimate } from '../estimate.js';
import type { Moments } from '../moments.js';
import { requireChance, requireCount } from '../requireNumbers.js';
import { mixtureRadius } from './mixtureRadius.js';
import { tightest } from './tightest.js';

/** Values at which a sequence with estimated deviation begins, unless told otherwise. */
const FIRST = 30;

/**
 * Mean with an interval that may be looked at after every value, for values whose standard deviation is known: with chance
 * `confidence` it holds the true mean at every look of an endless study (normal mixture, see {@link mixtureRadius}).
 *
 * Exact for normal values, and for values no wilder than normal ones of that standard deviation (sub-Gaussian).
 *
 * @param moments values so far, in any unit
 * @param sd of one value, in the same unit, above 0
 * @param planned number of values at which the interval is to be tightest, from 1
 * @param confidence above 0 and below 1
 * @throws ParameterError when a number is out of range
 * @example
 * const { low, high } = meanSequenceKnownSd(momentsOf([4, 6, 5, 5]), 1, 100, 0.95);
 * [low, high].map((x) => Number(x.toFixed(2))) // => [2.48, 7.52]
 */
export function meanSequenceKnownSd(
  moments: Moments,
  sd: number,
  planned: number,
  confidence: number,
): Estimate {
  requireParameter(sd > 0 && sd < Infinity, 'meanSequenceKnownSd', 'sd', sd, 'a finite number above 0');
  requireChance(confidence, 'meanSequenceKnownSd', 'confidence');
  if (moments.count === 0) return around(moments, null, confidence);
  return around(moments, sd * mixtureRadius(moments.count, planned, 1 - confidence), confidence);
}

/**
 * Mean with an interval that may be looked at after every value, with the standard deviation estimated from the values. So
 * a study may go on until it is decided, and stop there, without fooling itself.
 *
 * The normal mixture of {@link mixtureRadius} over the mean in standard deviations, with the deviation itself unknown. With
 * a = n rho^2 + 1 the ratio a^(-1/2) ((1 + t^2 / (n - 1)) / (1 + t^2 / (a (n - 1))))^(n / 2) is a martingale for t, Student's
 * statistic of n values (Goenen, Johnson, Lu & Westfall 2005, The American Statistician 59, 252-257; that it may be watched:
 * Lai 1976, Annals of Statistics 4, 265-280; Wang & Ramdas, Anytime-valid t-tests and confidence sequences for Gaussian
 * means with unknown variance, 2024; all from memory). It stays below 1 / alpha while, with R = (a / alpha^2)^(1/n),
 *
 * |mean - truth| < s sqrt((n - 1) / n x (R - 1) / (1 - R / a)); without limits when R >= a.
 *
 * Exact for normal values from the second on; with many values it comes to the same as {@link meanSequenceAsymptotic}, and
 * with few it is wider. The price of looking: at the planned number the interval is half as wide again as Student's. Values
 * that are very skewed err more often than stated while they are few (exponential ones, 95 %, begun at 30 of 100: 7 to 8 %
 * of studies; begun at 100: 4 %); for things that happen or not use {@link proportionSequence}.
 *
 * @param moments values so far, in any unit; differences of pairs to compare two systems
 * @param planned number of values at which the interval is to be tightest, from 1; choose it beforehand
 * @param confidence 1 - alpha, above 0 and below 1
 * @param first values at which to begin, from 2; fewer get no interval, nor do values that are all the same @default 30
 * @throws ParameterError when a number is out of range
 * @example
 * const { low, high } = meanSequence(momentsOf([4, 6, 5, 5, 4, 6, 5, 5]), 10, 0.95, 2);
 * [low, high].map((x) => Number(x.toFixed(2))) // => [3.84, 6.16]
 */
export function meanSequence(
  moments: Moments,
  planned: number,
  confidence: number,
  first: number = FIRST,
): Estimate {
  requireSequence('meanSequence', planned, confidence, first);
  const { count: n, variance } = moments;
  const alpha = 1 - confidence;
  const a = 1 + (n * tightest(alpha)) / planned;
  const grown = (Math.log(a) - 2 * Math.log(alpha)) / n;
  // R >= a: so few values that any mean is possible.
  if (!says(moments, first) || grown >= Math.log(a)) return around(moments, null, confidence);
  const ratio = (((n - 1) / n) * Math.expm1(grown)) / (1 - Math.exp(grown) / a);
  return around(moments, Math.sqrt(variance * ratio), confidence);
}

/**
 * The asymptotic confidence sequence: mean +- s_n x {@link mixtureRadius}, as if the estimated standard deviation were the
 * true one (Waudby-Smith, Arbour, Sinha, Kennedy & Ramdas, Time-uniform central limit theory and asymptotic confidence
 * sequences, Annals of Statistics 52, 2024, theorem 2.2, from memory).
 *
 * Right in the long run for values of any distribution with a finite variance, but not while values are few: begun at the
 * tenth it errs more often than stated even for normal values. {@link meanSequence} is the safer one.
 *
 * @param moments values so far, in any unit
 * @param planned number of values at which the interval is to be tightest, from 1; choose it beforehand
 * @param confidence above 0 and below 1
 * @param first values at which to begin, from 2; fewer get no interval, nor do values that are all the same @default 30
 * @throws ParameterError when a number is out of range
 * @example
 * const { low, high } = meanSequenceAsymptotic(momentsOf([4, 6, 5, 5, 4, 6, 5, 5]), 100, 0.95, 2);
 * [low, high].map((x) => Number(x.toFixed(2))) // => [3.92, 6.08]
 */
export function meanSequenceAsymptotic(
  moments: Moments,
  planned: number,
  confidence: number,
  first: number = FIRST,
): Estimate {
  requireSequence('meanSequenceAsymptotic', planned, confidence, first);
  if (!says(moments, first)) return around(moments, null, confidence);
  const radius = mixtureRadius(moments.count, planned, 1 - confidence);
  return around(moments, Math.sqrt(moments.variance) * radius, confidence);
}

function requireSequence(where: string, planned: number, confidence: number, first: number): void {
  requireChance(confidence, where, 'confidence');
  requireCount(first, 2, where, 'first');
  requireParameter(planned >= 1 && planned < Infinity, where, 'planned', planned, 'a finite number from 1');
}

/** Values that are all the same say nothing of the spread: what has not happened yet may still come. */
function says({ count, variance }: Moments, first: number): boolean {
  return count >= first && variance > 0;
}

function around({ count, mean }: Moments, half: number | null, confidence: number): Estimate {
  return {
    mean: count === 0 ? null : mean,
    low: half === null ? null : mean - half,
    high: half === null ? null : mean + half,
    confidence,
    replications: count,
  };
}
