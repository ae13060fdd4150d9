import { requireParameter } from '../../errors/index.js';
import { requireChance } from '../requireNumbers.js';
import { tightest } from './tightest.js';

/**
 * Half width, in standard deviations of one value, of an interval for a mean that may be looked at after every value and
 * still errs at most once in a lifetime with chance alpha: Robbins' normal mixture.
 *
 * For a sum S_n of n values with variance 1 about their mean, exp(b S_n - n b^2 / 2) is a martingale for every b; averaged
 * over b normal with variance rho^2 it is (n rho^2 + 1)^(-1/2) exp(rho^2 S_n^2 / (2 (n rho^2 + 1))), which ever reaches
 * 1 / alpha with chance at most alpha (Ville 1939). Solved for S_n / n:
 *
 * radius = sqrt((n rho^2 + 1) / (n^2 rho^2) x ln((n rho^2 + 1) / alpha^2))
 *
 * (Robbins 1970, Annals of Mathematical Statistics 41, 1397-1409; Howard, Ramdas, McAuliffe & Sekhon 2021, Annals of
 * Statistics 49, 1055-1080.) It is smallest at n = `planned` when x = planned rho^2 solves x = ln(1 + x) + 2 ln(1 / alpha):
 * there the derivative by x of (1 + 1/x) ln((1 + x) / alpha^2) is zero.
 *
 * @param n values so far, from 1
 * @param planned number of values at which the interval is to be tightest, from 1; it holds at every other as well
 * @param alpha chance to leave out the mean at any n ever, above 0 and below 1
 * @throws ParameterError when a number is out of range
 * @example
 * mixtureRadius(100, 100, 0.05).toFixed(4) // => '0.3035'
 */
export function mixtureRadius(n: number, planned: number, alpha: number): number {
  requireParameter(n >= 1 && n < Infinity, 'mixtureRadius', 'n', n, 'a finite number from 1');
  requireParameter(
    planned >= 1 && planned < Infinity,
    'mixtureRadius',
    'planned',
    planned,
    'a finite number from 1',
  );
  requireChance(alpha, 'mixtureRadius', 'alpha');
  // n rho^2
  const x = (n * tightest(alpha)) / planned;
  return Math.sqrt(((1 + 1 / x) / n) * (Math.log1p(x) - 2 * Math.log(alpha)));
}
