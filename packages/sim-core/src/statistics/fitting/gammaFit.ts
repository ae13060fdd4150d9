import { mean as meanOf } from 'simple-statistics';
import { requireParameter } from '../../errors/index.js';
import { digamma, logGamma, trigamma } from '../../numerics/index.js';
import { type Fit, fitOf, lifetimesOf } from './lifetimes.js';

/** A gamma distribution fitted to values. */
export interface GammaFit extends Fit {
  readonly shape: number;
  /** In the unit of the values. */
  readonly scale: number;
}

/**
 * Maximum likelihood for the gamma distribution, every value seen to its end.
 *
 * With s = ln(mean) - mean of the logarithms, the shape k solves ln k - digamma(k) = s; Newton's method on 1/k from the
 * start of Minka 2002 (Estimating a Gamma distribution, from memory). The scale is mean / k.
 *
 * @throws ParameterError when there are fewer than two values, one is not positive, or all are the same
 * @example
 * const { shape, scale } = gammaFit([2, 3, 5, 8]);
 * Number((shape * scale).toFixed(12)) // => 4.5
 */
export function gammaFit(values: readonly number[]): GammaFit {
  const times = lifetimesOf({ failures: values }, 'gammaFit');
  const n = times.length;
  const mean = meanOf(times);
  const meanLog = meanOf(times.map((time) => Math.log(time)));
  const s = Math.log(mean) - meanLog;
  requireParameter(s > 1e-15, 'gammaFit', 'values', times[0], 'not the same each time');
  const shape = gammaShape(s);
  const logLikelihood =
    n * ((shape - 1) * meanLog - shape - logGamma(shape) - shape * Math.log(mean / shape));
  return { shape, scale: mean / shape, ...fitOf(logLikelihood, 2) };
}

/** Solves ln k - digamma(k) = s for k, s above 0. */
function gammaShape(s: number): number {
  let shape = (3 - s + Math.sqrt((s - 3) ** 2 + 24 * s)) / (12 * s);
  for (let i = 0; i < 50; i++) {
    const slope = 1 / shape - trigamma(shape);
    const next = 1 / (1 / shape + (Math.log(shape) - digamma(shape) - s) / (shape * shape * slope));
    if (!(next > 0 && Number.isFinite(next))) break;
    const close = Math.abs(next - shape) < 1e-12 * shape;
    shape = next;
    if (close) break;
  }
  return shape;
}
