import type { DistributionSpec } from '../distributions/index.js';
import type { StopTriggerSpec } from '../model/spec/index.js';
import {
  clopperPearson,
  jeffreysProportion,
  type Limits,
  poissonRate,
  type PoissonRate,
  wearCheck,
  type WearCheck,
} from '../statistics/index.js';
import type { CrowdingFit } from './fitCrowding.js';
import type { ClearFit } from './fitClear.js';
import type { Figure } from './figure.js';
import type { StopClock } from './fitOptions.js';

/** Fewer stops than this do not tell wear from chance. */
const ENOUGH_FOR_WEAR = 5;

/** One cause of stopping, as far as it was seen. */
export interface CauseFit {
  readonly cause: string;
  readonly stops: number;
  readonly clock: StopClock;
  /** Seconds of running, cycles, or balls: as the clock counts. */
  readonly over: number;
  /** Stops for each second, cycle or ball, with limits right on average (Jeffreys); with none seen, the rate is 0. */
  readonly rate: Figure;
  /** Exact limits, right or on the safe side whatever the rate is. */
  readonly exact: Limits;
  /** With no stop seen: 3 over what was watched, the upper limit in the head; null otherwise. */
  readonly ruleOfThree: number | null;
  /** Times between stops against the exponential distribution; null with few stops, or when it counts cycles or balls. */
  readonly wear: WearCheck | null;
  readonly trigger: StopTriggerSpec;
  readonly clear: ClearFit | null;
  readonly crowding: CrowdingFit | null;
  /** Chance that a ball in the mechanism falls when it stops; null where nobody counted. */
  readonly drops: Figure | null;
}

/** What was seen of one cause. */
export interface CauseSeen {
  readonly cause: string;
  readonly stops: number;
  readonly clock: StopClock;
  readonly over: number;
  /** Running seconds from one stop of this cause to the next. */
  readonly between: readonly number[];
  /** Running seconds at the end of each record, after the last stop of this cause. */
  readonly rest: readonly number[];
}

/**
 * The rate of one cause. Without a stop the trigger is given half a stop over all that was watched, the mean of what Jeffreys'
 * prior leaves: neither never nor the worst.
 */
export function fitCause(
  seen: CauseSeen,
  confidence: number,
): Pick<
  CauseFit,
  'cause' | 'stops' | 'clock' | 'over' | 'rate' | 'exact' | 'ruleOfThree' | 'wear' | 'trigger'
> {
  const { cause, stops, clock, over, between, rest } = seen;
  const common = { cause, stops, clock, over };
  const rate =
    clock === 'running' ? poissonRate(stops, over, confidence) : shareRate(stops, over, confidence);
  const perUnit = stops === 0 ? 0.5 / over : rate.rate;
  const wear =
    clock === 'running' && stops >= ENOUGH_FOR_WEAR && between.length >= 2
      ? wearOf(between, rest, confidence)
      : null;
  return {
    ...common,
    rate: { value: rate.rate, ...rate.jeffreys, confidence, n: stops },
    exact: rate.exact,
    ruleOfThree: rate.ruleOfThree,
    wear,
    trigger: triggerOf(clock, perUnit, wear !== null && wear.pValue < 1 - confidence ? wear : null),
  };
}

/** A chance for each cycle or ball, in the form of a rate. */
function shareRate(stops: number, over: number, confidence: number): PoissonRate {
  const trials = Math.max(over, stops);
  return {
    rate: stops / trials,
    exact:
      stops === 0
        ? { low: 0, high: 1 - (1 - confidence) ** (1 / trials) }
        : clopperPearson(stops, trials, confidence),
    jeffreys: jeffreysProportion(stops, trials, confidence),
    ruleOfThree: stops === 0 ? Math.min(1, 3 / trials) : null,
    confidence,
    events: stops,
    exposure: trials,
  };
}

function wearOf(between: readonly number[], rest: readonly number[], confidence: number): WearCheck | null {
  const failures = between.filter((time) => time > 0);
  const [first] = failures;
  return failures.length >= 2 && failures.some((time) => time !== first)
    ? wearCheck({ failures, censored: rest.filter((time) => time > 0) }, confidence)
    : null;
}

/**
 * Shapes that a scenario takes. A higher one says the same to a thousandth of the scale. A lower one would be a mean of
 * millions of scales: rather the rate that was counted.
 */
const SHAPES = { least: 0.1, most: 1000 };

/** The same, so many times as rare. */
export function rarer(trigger: StopTriggerSpec, times: number): StopTriggerSpec {
  switch (trigger.kind) {
    case 'per_cycle':
    case 'per_ball':
      return { ...trigger, probability: trigger.probability / times };
    case 'running':
    case 'clock':
      return { ...trigger, time: longer(trigger.time, times) };
    case 'at':
      return trigger;
  }
}

function longer(time: DistributionSpec, times: number): DistributionSpec {
  if (time.family === 'weibull' && 'scale' in time) return { ...time, scale: time.scale * times };
  if (time.family === 'exponential') return { ...time, mean: time.mean * times };
  return time;
}

function triggerOf(clock: StopClock, perUnit: number, wear: WearCheck | null): StopTriggerSpec {
  if (clock === 'per_cycle') return { kind: 'per_cycle', probability: Math.min(1, perUnit) };
  if (clock === 'per_ball') return { kind: 'per_ball', probability: Math.min(1, perUnit) };
  return {
    kind: 'running',
    time:
      wear === null || wear.shape < SHAPES.least
        ? { family: 'exponential', mean: 1 / perUnit }
        : { family: 'weibull', scale: wear.scale, shape: Math.min(wear.shape, SHAPES.most) },
  };
}
