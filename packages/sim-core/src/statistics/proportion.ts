import { requireParameter } from '../errors/index.js';
import { betaQuantile, normalQuantile, studentTQuantile } from '../numerics/index.js';
import type { Estimate } from './estimate.js';
import type { Moments } from './moments.js';

/**
 * Share of replications in which something happened, with Wilson's score interval (Wilson 1927, JASA 22, 209-212;
 * Newcombe 1998, Statistics in Medicine 17, 857-872).
 *
 * @param successes whole number from 0 to `trials`
 * @param trials whole number from 0
 * @throws ParameterError when a number is out of range
 * @example
 * const { low, high } = wilsonInterval(81, 263, 0.95);
 * [low, high].map((x) => Number(x.toFixed(4))) // => [0.2553, 0.3662]
 */
export function wilsonInterval(successes: number, trials: number, confidence: number): Estimate {
  requireParameter(
    confidence > 0 && confidence < 1,
    'wilsonInterval',
    'confidence',
    confidence,
    'above 0 and below 1',
  );
  requireParameter(trials >= 0, 'wilsonInterval', 'trials', trials, 'from 0');
  requireParameter(
    successes >= 0 && successes <= trials,
    'wilsonInterval',
    'successes',
    successes,
    `0 to ${trials}`,
  );
  const common = { confidence, replications: trials };
  if (trials === 0) return { mean: null, low: null, high: null, ...common };
  const z = normalQuantile(0.5 + confidence / 2);
  const p = successes / trials;
  const scale = 1 + (z * z) / trials;
  const centre = (p + (z * z) / (2 * trials)) / scale;
  const half = (z / scale) * Math.sqrt((p * (1 - p)) / trials + (z * z) / (4 * trials * trials));
  return {
    mean: p,
    // Exactly 0 and 1 at the ends, where rounding would leave 1e-17.
    low: successes === 0 ? 0 : centre - half,
    high: successes === trials ? 1 : centre + half,
    ...common,
  };
}

/**
 * Exact binomial limits (Clopper & Pearson 1934, Biometrika 26, 404-413); the counts need not be whole.
 *
 * @throws ParameterError when a number is out of range
 * @example
 * clopperPearson(0, 10, 0.95).high.toFixed(4) // => '0.3085'
 */
export function clopperPearson(
  successes: number,
  trials: number,
  confidence: number,
): { readonly low: number; readonly high: number } {
  requireParameter(
    confidence > 0 && confidence < 1,
    'clopperPearson',
    'confidence',
    confidence,
    'above 0 and below 1',
  );
  requireParameter(trials > 0, 'clopperPearson', 'trials', trials, 'above 0');
  requireParameter(
    successes >= 0 && successes <= trials,
    'clopperPearson',
    'successes',
    successes,
    `0 to ${trials}`,
  );
  const tail = (1 - confidence) / 2;
  return {
    low: successes === 0 ? 0 : betaQuantile(tail, successes, trials - successes + 1),
    high: successes === trials ? 1 : betaQuantile(1 - tail, successes + 1, trials - successes),
  };
}

/**
 * Share of hours in which something happened, when the hours come in replications and those of one replication may be
 * alike: the exact binomial limits at the effective number of hours (Korn & Graubard 1998, Survey Methodology 24,
 * 193-201, from memory).
 *
 * n_eff = p (1 - p) / (s^2 / n) x (t(N - 1) / t(n - 1))^2, at most N, with n replications, N hours in all and s^2 the
 * variance of the replications' own shares. Where the spread says nothing (every hour the same) the first factor is N, as
 * in the data presentation standards of the US National Center for Health Statistics (Parker et al. 2017, from memory).
 *
 * @param shares the share of hours in each replication, all with the same number of hours
 * @param hours hours in each replication, from 1
 * @throws ParameterError when a number is out of range
 * @example
 * const shares = new Moments();
 * for (let i = 0; i < 10; i++) shares.add(0);
 * clusteredProportion(shares, 6, 0.95).high.toFixed(4) // => '0.0756'
 */
export function clusteredProportion(shares: Moments, hours: number, confidence: number): Estimate {
  requireParameter(hours >= 1, 'clusteredProportion', 'hours', hours, 'from 1');
  const { count: n, mean: p, variance } = shares;
  const common = { confidence, replications: n };
  if (n === 0) return { mean: null, low: null, high: null, ...common };
  if (n === 1) return { mean: p, low: null, high: null, ...common };
  const all = n * hours;
  const t = (degrees: number): number => studentTQuantile(0.5 + confidence / 2, degrees);
  const few = (t(all - 1) / t(n - 1)) ** 2;
  const likeIndependent = variance > 0 ? Math.min(all, (p * (1 - p) * n) / variance) : all;
  const effective = likeIndependent * few;
  return { mean: p, ...clopperPearson(p * effective, effective, confidence), ...common };
}
