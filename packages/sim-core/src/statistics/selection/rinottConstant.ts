import { bisect } from 'simple-statistics';
import { requireParameter } from '../../errors/index.js';
import { gammaQuantile, logGamma, normalCdf } from '../../numerics/index.js';
import { requireChance, requireCount } from '../requireNumbers.js';

/**
 * Points of the quadrature. Twice as many change the constants by less than a part in 10^10 with three replications or more
 * in the first stage, and by one in a million with two.
 */
const POINTS = 128;
/** Mass left out at each end. */
const TAIL = 1e-15;
const FINEST = 1e-10;
const STEPS = 200;

/**
 * Rinott's constant h for two-stage selection of the best of k systems (Rinott 1978, Communications in Statistics A7,
 * 799-811): the h for which the double integral
 *
 * [Phi(h / sqrt((n0 - 1) (1/x + 1/y))) f(x) dx]^(k - 1) f(y) dy
 *
 * is pStar, with f the density of chi-square with n0 - 1 degrees of freedom. By the trapezoidal rule in ln x and ln y,
 * where the integrand falls off at both ends faster than any power of the step.
 *
 * @param k systems, from 2
 * @param n0 replications of each in the first stage, from 2
 * @param pStar chance to select the best, above 1 / k and below 1
 * @throws ParameterError when a number is out of range
 * @example
 * rinottConstant(10, 20, 0.95).toFixed(3) // => '3.875'
 */
export function rinottConstant(k: number, n0: number, pStar: number): number {
  requireSelection('rinottConstant', k, n0, pStar);
  const degrees = n0 - 1;
  const { nodes, weights } = chiSquareRule(degrees);
  // 1 / sqrt((n0 - 1) (1/x + 1/y)), the same for x, y and y, x: one half is enough.
  const scales = nodes.map((x, i) =>
    nodes.slice(0, i + 1).map((y) => 1 / Math.sqrt(degrees * (1 / x + 1 / y))),
  );
  const chance = (h: number): number => {
    const inner = new Float64Array(POINTS);
    for (const [i, row] of scales.entries()) {
      for (const [j, scale] of row.entries()) {
        const phi = normalCdf(h * scale);
        inner[i] = (inner[i] ?? 0) + phi * (weights[j] ?? 0);
        if (j < i) inner[j] = (inner[j] ?? 0) + phi * (weights[i] ?? 0);
      }
    }
    return weights.reduce((sum, weight, i) => sum + weight * (inner[i] ?? 0) ** (k - 1), 0);
  };
  return rootAbove(chance, pStar);
}

/** The h from 0 at which an increasing chance reaches its target. */
export function rootAbove(chance: (h: number) => number, target: number): number {
  let upper = 4;
  while (chance(upper) < target) upper *= 2;
  return bisect((h) => chance(h) - target, 0, upper, STEPS, FINEST * upper);
}

/**
 * Throws unless a selection is asked for that can be had: by drawing lots one is right with chance 1 / k.
 *
 * @throws ParameterError when a number is out of range
 */
export function requireSelection(where: string, k: number, n0: number, pStar: number): void {
  requireCount(k, 2, where, 'k');
  requireCount(n0, 2, where, 'n0');
  requireChance(pStar, where, 'pStar');
  requireParameter(pStar > 1 / k, where, 'pStar', pStar, `above ${1 / k}, the chance of drawing lots`);
}

/** Points and weights for means over a chi-square variable, spaced evenly in its logarithm. */
function chiSquareRule(degrees: number): { nodes: number[]; weights: number[] } {
  const shape = degrees / 2;
  const first = Math.log(2 * gammaQuantile(TAIL, shape));
  const last = Math.log(2 * gammaQuantile(1 - TAIL, shape));
  const step = (last - first) / (POINTS - 1);
  const nodes = Array.from({ length: POINTS }, (_, i) => Math.exp(first + i * step));
  const weights = nodes.map((x) => step * Math.exp(shape * Math.log(x / 2) - x / 2 - logGamma(shape)));
  return { nodes, weights };
}
