import { createRequire } from 'node:module';

/*
 * Special functions of the statistics library @stdlib, loaded at first use: they take some 60 ms to load, and most
 * commands and most scenarios need none of them.
 */
type SpecialFunction = (x: number, ...parameters: number[]) => number;

const require = createRequire(import.meta.url);

// Each with its name written out, so that build/bundleCore.mjs sees what is to stand in a file of its own.
const LIBRARY = {
  gammaln: () => require('@stdlib/math-base-special-gammaln') as SpecialFunction,
  digamma: () => require('@stdlib/math-base-special-digamma') as SpecialFunction,
  trigamma: () => require('@stdlib/math-base-special-trigamma') as SpecialFunction,
  erfc: () => require('@stdlib/math-base-special-erfc') as SpecialFunction,
  betainc: () => require('@stdlib/math-base-special-betainc') as SpecialFunction,
  gammaCdf: () => require('@stdlib/stats-base-dists-gamma-cdf') as SpecialFunction,
  gammaQuantile: () => require('@stdlib/stats-base-dists-gamma-quantile') as SpecialFunction,
  tQuantile: () => require('@stdlib/stats-base-dists-t-quantile') as SpecialFunction,
  betaQuantile: () => require('@stdlib/stats-base-dists-beta-quantile') as SpecialFunction,
};
const loaded = new Map<string, SpecialFunction>();

function load(name: keyof typeof LIBRARY): SpecialFunction {
  const known = loaded.get(name);
  if (known !== undefined) return known;
  const found = LIBRARY[name]();
  loaded.set(name, found);
  return found;
}

/**
 * Natural logarithm of the gamma function.
 *
 * @example
 * logGamma(5) // => Math.log(24)
 */
export function logGamma(x: number): number {
  return load('gammaln')(x);
}

/**
 * Derivative of the logarithm of the gamma function (psi function).
 *
 * @example
 * Number(digamma(1).toFixed(12)) // => -0.577215664902
 */
export function digamma(x: number): number {
  return load('digamma')(x);
}

/**
 * Derivative of the digamma function.
 *
 * @example
 * Number(trigamma(1).toFixed(12)) // => Number((Math.PI ** 2 / 6).toFixed(12))
 */
export function trigamma(x: number): number {
  return load('trigamma')(x);
}

/**
 * Standard normal distribution function Phi(z) = P(Z <= z), accurate in both tails.
 *
 * @example
 * normalCdf(0) // => 0.5
 */
export function normalCdf(z: number): number {
  return 0.5 * load('erfc')(-z / Math.SQRT2);
}

/**
 * Distribution function of the gamma distribution with the given shape and scale 1.
 *
 * @example
 * gammaCdf(2, 1) // => 0.8646647167633873
 */
export function gammaCdf(x: number, shape: number): number {
  return load('gammaCdf')(x, shape, 1);
}

/**
 * Distribution function of the chi-square distribution: P(X <= x), half of which is a gamma variable.
 *
 * @param degrees degrees of freedom, above 0
 * @example
 * chiSquareCdf(3.841458820694124, 1).toFixed(9) // => '0.950000000'
 */
export function chiSquareCdf(x: number, degrees: number): number {
  return x <= 0 ? 0 : gammaCdf(x / 2, degrees / 2);
}

/**
 * Quantile of the gamma distribution with the given shape and scale 1.
 *
 * @example
 * gammaQuantile(0.5, 1) // => 0.6931471805599453
 */
export function gammaQuantile(p: number, shape: number): number {
  return load('gammaQuantile')(p, shape, 1);
}

/**
 * Quantile of Student's t distribution.
 *
 * @param degrees degrees of freedom, above 0, need not be whole
 * @example
 * Number(studentTQuantile(0.975, 10).toFixed(9)) // => 2.228138852
 */
export function studentTQuantile(p: number, degrees: number): number {
  return load('tQuantile')(p, degrees);
}

/**
 * Quantile of the beta distribution.
 *
 * @example
 * Number(betaQuantile(0.5, 2, 2).toFixed(12)) // => 0.5
 */
export function betaQuantile(p: number, a: number, b: number): number {
  return load('betaQuantile')(p, a, b);
}

/**
 * Distribution function of Student's t distribution: P(T <= t).
 *
 * By the incomplete beta function of degrees / (degrees + t^2) (Abramowitz & Stegun 1964, 26.7.1, from memory), accurate in
 * both tails.
 *
 * @param degrees degrees of freedom, above 0, need not be whole
 * @example
 * Number(studentTCdf(1, 1).toFixed(12)) // => 0.75
 */
export function studentTCdf(t: number, degrees: number): number {
  const tail = 0.5 * load('betainc')(degrees / (degrees + t * t), degrees / 2, 0.5);
  return t < 0 ? tail : 1 - tail;
}

/**
 * Distribution function of the binomial distribution: P(B <= k) in `trials` trials.
 *
 * By the incomplete beta function (Abramowitz & Stegun 1964, 26.5.24, from memory), so that a long sum is not needed.
 *
 * @example
 * Number(binomialCdf(1, 10, 0.5).toFixed(12)) // => Number((11 / 1024).toFixed(12))
 */
export function binomialCdf(k: number, trials: number, chance: number): number {
  if (k < 0) return 0;
  if (k >= trials) return 1;
  return load('betainc')(1 - chance, trials - k, k + 1);
}
