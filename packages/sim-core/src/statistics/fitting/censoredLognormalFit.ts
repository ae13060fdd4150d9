import { normalCdf } from '../../numerics/index.js';
import { fitOf, type Lifetimes, lifetimesOf } from './lifetimes.js';
import type { LognormalFit } from './lognormalFit.js';

/**
 * Maximum likelihood for the lognormal distribution with right censoring, by expectation and maximisation: what a censored
 * logarithm still has before it is replaced by its mean and mean square beyond that point (Dempster, Laird & Rubin 1977,
 * JRSS B 39, 1-38, from memory).
 *
 * @throws ParameterError when there are fewer than two values or one is not positive
 * @example
 * censoredLognormalFit({ failures: [1, Math.E ** 2] }).mu // => 1
 */
export function censoredLognormalFit(lifetimes: Lifetimes): LognormalFit {
  lifetimesOf(lifetimes, 'censoredLognormalFit');
  const seen = lifetimes.failures.map((time) => Math.log(time));
  const open = (lifetimes.censored ?? []).map((time) => Math.log(time));
  const n = seen.length + open.length;
  const all = [...seen, ...open];
  let mu = all.reduce((sum, x) => sum + x, 0) / n;
  let variance = all.reduce((sum, x) => sum + (x - mu) ** 2, 0) / n;
  for (let i = 0; i < 100_000; i++) {
    const sd = Math.sqrt(variance);
    let sum = 0;
    let squares = 0;
    for (const x of seen) {
      sum += x;
      squares += x * x;
    }
    for (const c of open) {
      const z = (c - mu) / sd;
      const hazard = hazardOf(z);
      sum += mu + sd * hazard;
      squares += mu * mu + variance + sd * hazard * (c + mu);
    }
    const nextMu = sum / n;
    const nextVariance = squares / n - nextMu * nextMu;
    const close = Math.abs(nextMu - mu) < 1e-13 * sd && Math.abs(nextVariance - variance) < 1e-13 * variance;
    mu = nextMu;
    variance = nextVariance;
    if (close) break;
  }
  const sigma = Math.sqrt(variance);
  let logLikelihood = 0;
  for (const x of seen)
    logLikelihood -= x + Math.log(sigma) + 0.5 * Math.log(2 * Math.PI) + 0.5 * ((x - mu) / sigma) ** 2;
  for (const c of open) logLikelihood += Math.log(normalCdf((mu - c) / sigma));
  return { mu, sigma, ...fitOf(logLikelihood, 2) };
}

/** Normal density over the upper tail. */
function hazardOf(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI) / normalCdf(-z);
}
