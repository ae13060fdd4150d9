import { buildDistribution, type DistributionSpec, stretched } from '../distributions/index.js';
import type { CauseCounted, RemedySpec, StopCauseSpec, StopTriggerSpec } from '../model/spec/index.js';
import type { Note, UniformFor } from './drawing.js';
import { chanceQuantile, type Count, rateQuantile } from './drawRate.js';
import { drawTime, drawWeibull } from './drawTime.js';

/** Limits of a scenario file: seconds from one stop to the next on average, and the factor while crowded. */
const MEANS = { min: 0.01, max: 3650 * 86400 };
const MOST_TIMES = 10_000;

/**
 * Draws one cause of stopping from what was counted of it: how often it strikes, how much more often while the basket is
 * crowded, how long clearing takes. Notes `stop:` with a rate per second or a chance (of a Weibull clock its scale),
 * `crowded:` with the factor, `clear:` with the mean.
 *
 * The factor is the rate while crowded over the rate below, each from its own count. Counts that do not tell the two apart
 * are taken as made below.
 */
export function drawStops(
  cause: StopCauseSpec,
  counted: CauseCounted,
  uniform: UniformFor,
  note: Note,
): StopCauseSpec {
  const trigger = drawTrigger(cause.trigger, counted, uniform, note);
  const remedy = drawRemedy(cause.remedy, counted, uniform, note);
  const crowded =
    cause.crowded && counted.crowded
      ? { ...cause.crowded, times: drawTimes(trigger, cause, counted, counted.crowded, uniform, note) }
      : cause.crowded;
  return { ...cause, trigger, remedy, ...(crowded && { crowded }) };
}

function drawTrigger(
  trigger: StopTriggerSpec,
  counted: CauseCounted,
  uniform: UniformFor,
  note: Note,
): StopTriggerSpec {
  const name = `stop:${counted.cause}`;
  switch (trigger.kind) {
    case 'per_cycle':
    case 'per_ball': {
      const probability = chanceQuantile(uniform(name), counted, counted.prior);
      note(name, probability);
      return { kind: trigger.kind, probability };
    }
    case 'running':
    case 'clock': {
      const failures = counted.stops + (counted.prior?.stops ?? 0);
      if (trigger.time.family === 'weibull' && failures >= 2)
        return { kind: trigger.kind, time: drawWeibull(trigger.time, name, failures, uniform, note) };
      const rate = rateQuantile(uniform(name), counted, counted.prior);
      note(name, rate);
      return { kind: trigger.kind, time: withMean(trigger.time, 1 / rate) };
    }
    case 'at':
      return trigger;
  }
}

function withMean(time: DistributionSpec, mean: number): DistributionSpec {
  const within = Math.min(MEANS.max, Math.max(MEANS.min, mean));
  return stretched(time, within / buildDistribution(time).mean);
}

/** While crowded the factor makes the trigger as frequent as was drawn for it, whatever was drawn for below. */
function drawTimes(
  trigger: StopTriggerSpec,
  { id }: StopCauseSpec,
  { cause }: CauseCounted,
  crowded: Count,
  uniform: UniformFor,
  note: Note,
): number {
  const name = `crowded:${cause}`;
  const p = uniform(name);
  const above = (): number => {
    switch (trigger.kind) {
      case 'per_cycle':
      case 'per_ball':
        return chanceQuantile(p, crowded) / trigger.probability;
      case 'running':
      case 'clock':
        return rateQuantile(p, crowded) * buildDistribution(trigger.time).mean;
      case 'at':
        throw new Error(`planned stops (${id}) are not counted`);
    }
  };
  const times = Math.min(MOST_TIMES, above());
  note(name, times);
  return times;
}

function drawRemedy(
  remedy: RemedySpec,
  { cause, clears }: CauseCounted,
  uniform: UniformFor,
  note: Note,
): RemedySpec {
  const draw = (time: DistributionSpec): DistributionSpec =>
    drawTime(time, `clear:${cause}`, clears, uniform, note);
  return remedy.kind === 'itself'
    ? { ...remedy, time: draw(remedy.time) }
    : { ...remedy, clear: draw(remedy.clear) };
}
