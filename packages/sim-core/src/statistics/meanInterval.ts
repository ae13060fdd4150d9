import { requireParameter } from '../errors/index.js';
import { studentTQuantile } from '../numerics/index.js';
import type { Bounds, Estimate } from './estimate.js';
import type { Moments } from './moments.js';

/**
 * Mean of independent replications with Student's t interval: mean +- t(n - 1) s / sqrt(n) (Student 1908; Law 2015,
 * Simulation Modeling and Analysis, 5th ed., 4.5, from memory).
 *
 * @param moments one value for each replication
 * @param confidence above 0 and below 1
 * @param bounds range the quantity can lie in; the interval is cut off there @default no bounds
 * @throws ParameterError when the confidence is out of range
 * @example
 * const moments = new Moments();
 * for (const x of [1.2, 1.5, 1.68, 1.89, 0.95, 1.49, 1.58, 1.55, 0.5, 1.09]) moments.add(x);
 * const { mean, low, high } = meanInterval(moments, 0.9);
 * [mean, (high - low) / 2].map((x) => Number(x.toFixed(2))) // => [1.34, 0.24]
 */
export function meanInterval(moments: Moments, confidence: number, bounds: Bounds = {}): Estimate {
  requireParameter(
    confidence > 0 && confidence < 1,
    'meanInterval',
    'confidence',
    confidence,
    'above 0 and below 1',
  );
  const { count, mean, variance } = moments;
  const common = { confidence, replications: count };
  if (count === 0) return { mean: null, low: null, high: null, ...common };
  if (count === 1) return { mean, low: null, high: null, ...common };
  const half = studentTQuantile(0.5 + confidence / 2, count - 1) * Math.sqrt(variance / count);
  const { min = -Infinity, max = Infinity } = bounds;
  return { mean, low: Math.max(min, mean - half), high: Math.min(max, mean + half), ...common };
}
