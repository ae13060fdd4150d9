import { requireParameter } from '../../errors/index.js';
import { requireChance, requireCount } from '../requireNumbers.js';
import { clopperPearson } from '../proportion.js';
import { jeffreysProportion } from './jeffreysProportion.js';
import type { Limits } from './limits.js';

/** Events over an exposure. */
export interface Counted {
  /** Whole number from 0. */
  readonly events: number;
  /** Above 0, in any unit. */
  readonly exposure: number;
}

/** How many times as often here as there. */
export interface RateRatio {
  /** Null when there was no event there. */
  readonly ratio: number | null;
  /** Exact limits; `high` is Infinity when there was no event there, `low` 0 when there was none here. */
  readonly exact: Limits;
  /** Limits by Jeffreys' prior, right on average. */
  readonly jeffreys: Limits;
  readonly confidence: number;
}

/**
 * Ratio of two Poisson rates. Given all events, those here are binomial with chance p = r T1 / (r T1 + T2) at the ratio r,
 * so limits of p turn into limits of r (Przyborowski & Wilenski 1940, Biometrika 31, 313-323, from memory): exact ones
 * (Clopper-Pearson) and those of Jeffreys.
 *
 * @throws ParameterError when a number is out of range
 * @example
 * const { ratio, exact } = rateRatio({ events: 11, exposure: 800 }, { events: 21, exposure: 3011 }, 0.95);
 * [ratio, exact.low, exact.high].map((x) => Number(x.toFixed(6))) // => [1.971488, 0.858426, 4.277266]
 */
export function rateRatio(here: Counted, there: Counted, confidence: number): RateRatio {
  requireChance(confidence, 'rateRatio', 'confidence');
  for (const [name, { events, exposure }] of Object.entries({ here, there })) {
    requireCount(events, 0, 'rateRatio', `${name}.events`);
    requireParameter(
      exposure > 0 && exposure < Infinity,
      'rateRatio',
      `${name}.exposure`,
      exposure,
      'a finite number above 0',
    );
  }
  const all = here.events + there.events;
  const times = there.exposure / here.exposure;
  const odds = (p: number): number => (p >= 1 ? Infinity : (p / (1 - p)) * times);
  const turned = ({ low, high }: Limits): Limits => ({ low: odds(low), high: odds(high) });
  const nothing = { low: 0, high: Infinity };
  return {
    ratio: there.events === 0 ? null : (here.events / there.events) * times,
    exact: all === 0 ? nothing : turned(clopperPearson(here.events, all, confidence)),
    jeffreys: all === 0 ? nothing : turned(jeffreysProportion(here.events, all, confidence)),
    confidence,
  };
}
