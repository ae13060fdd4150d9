import { requireParameter } from '../../errors/index.js';
import { gammaQuantile } from '../../numerics/index.js';
import { requireChance, requireCount } from '../requireNumbers.js';
import type { Limits } from './limits.js';

/** A rate of single events from a count. */
export interface PoissonRate {
  /** Events per unit of exposure. */
  readonly rate: number;
  /** Exact limits: they hold the true rate at least so often, whatever it is. With no event only the upper one is used. */
  readonly exact: Limits;
  /** Limits by Jeffreys' prior: they hold the true rate so often on average, and are shorter. */
  readonly jeffreys: Limits;
  /** With no event: 3 / exposure, the upper limit in the head at 95 %; null otherwise. */
  readonly ruleOfThree: number | null;
  readonly confidence: number;
  readonly events: number;
  readonly exposure: number;
}

/**
 * A rate (stops per running hour, per cycle) from a count over an exposure fixed beforehand.
 *
 * Exact (Garwood 1936, Biometrika 28, 437-442, from memory): low = chi2(alpha/2; 2 n) / (2 T), high =
 * chi2(1 - alpha/2; 2 n + 2) / (2 T); with n = 0 the one-sided high = -ln(alpha) / T, at 95 % about 3 / T, the rule of
 * three (Hanley & Lippman-Hand 1983, JAMA 249, 1743-1745, from memory). Jeffreys: quantiles of the gamma distribution with
 * shape n + 1/2 and rate T, and low = 0 with n = 0.
 *
 * @param events whole number from 0
 * @param exposure above 0, in any unit
 * @throws ParameterError when a number is out of range
 * @example
 * const { rate, exact } = poissonRate(2, 800, 0.9);
 * [rate, Math.round(1 / exact.high), Math.round(1 / exact.low)] // => [0.0025, 127, 2251]
 */
export function poissonRate(events: number, exposure: number, confidence: number): PoissonRate {
  requireCount(events, 0, 'poissonRate', 'events');
  requireChance(confidence, 'poissonRate', 'confidence');
  requireParameter(
    exposure > 0 && exposure < Infinity,
    'poissonRate',
    'exposure',
    exposure,
    'a finite number above 0',
  );
  const tail = (1 - confidence) / 2;
  const quantile = (p: number, shape: number): number => gammaQuantile(p, shape) / exposure;
  const none = events === 0;
  return {
    rate: events / exposure,
    exact: none
      ? { low: 0, high: -Math.log1p(-confidence) / exposure }
      : { low: quantile(tail, events), high: quantile(1 - tail, events + 1) },
    jeffreys: {
      low: none ? 0 : quantile(tail, events + 0.5),
      high: quantile(1 - tail, events + 0.5),
    },
    ruleOfThree: none ? 3 / exposure : null,
    confidence,
    events,
    exposure,
  };
}
