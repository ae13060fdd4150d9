import { logGamma, studentTCdf, studentTQuantile } from '../../numerics/index.js';
import { requireSelection, rootAbove } from './rinottConstant.js';

/** Enough for one degree of freedom, where the integrand changes fast near -h. */
const POINTS = 1024;
/** Mass left out at each end. */
const TAIL = 1e-15;

/**
 * Constant h1 of the two-stage selection of Dudewicz & Dalal (1975, Sankhya B37, 28-78): the h for which the integral of
 * F(t + h)^(k - 1) f(t) dt is pStar, with F and f of Student's t with n0 - 1 degrees of freedom. Smaller than
 * {@link rinottConstant} from three systems on, but for weighted instead of plain means.
 *
 * By the trapezoidal rule in arsinh t, where the integrand falls off exponentially at both ends.
 *
 * @param k systems, from 2
 * @param n0 replications of each in the first stage, from 2
 * @param pStar chance to select the best, above 1 / k and below 1
 * @throws ParameterError when a number is out of range
 * @example
 * dudewiczDalalConstant(10, 20, 0.9).toFixed(3) // => '3.182'
 */
export function dudewiczDalalConstant(k: number, n0: number, pStar: number): number {
  requireSelection('dudewiczDalalConstant', k, n0, pStar);
  const degrees = n0 - 1;
  const end = Math.asinh(studentTQuantile(1 - TAIL, degrees));
  const step = (2 * end) / (POINTS - 1);
  const us = Array.from({ length: POINTS }, (_, i) => i * step - end);
  const nodes = us.map(Math.sinh);
  const constant = logGamma((degrees + 1) / 2) - logGamma(degrees / 2) - 0.5 * Math.log(degrees * Math.PI);
  const weights = us.map((u, i) => {
    const t = nodes[i] ?? NaN;
    const density = Math.exp(constant - ((degrees + 1) / 2) * Math.log1p((t * t) / degrees));
    return step * density * Math.cosh(u);
  });
  const chance = (h: number): number =>
    weights.reduce(
      (sum, weight, i) => sum + weight * studentTCdf((nodes[i] ?? NaN) + h, degrees) ** (k - 1),
      0,
    );
  return rootAbove(chance, pStar);
}
