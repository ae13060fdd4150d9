import type { DistributionSpec } from '../distributions/index.js';
import type { StopTriggerSpec } from '../model/spec/index.js';
import { formatNumber } from '../units/index.js';
import { isShown } from './fitCrowding.js';
import type { ModuleFit } from './moduleFit.js';

/** A value of a scenario file: text with its unit, a number, or keys. */
export type ScenarioFigure = string | number | readonly ScenarioFigure[] | ScenarioFigures;

/** Keys of a scenario file with their values. */
export interface ScenarioFigures {
  readonly [key: string]: ScenarioFigure;
}

/**
 * The figures of a fit as keys of a module in a scenario file. What no log tells (basket, travel, drive) is not among them
 * and stays as it is in the file.
 *
 * @example
 * const record = { module: 'lift', where: 'bench', watched: [{ from: 0, to: 60 }], spills: [], stops: [],
 *   batches: [{ at: 3, balls: 2 }, { at: 6, balls: 2 }] };
 * scenarioFigures(fitModule(record)) // => { batch: 2, cycle: '3 s', catch: 1 }
 */
export function scenarioFigures(fit: ModuleFit): ScenarioFigures {
  const { batch, cycle, causes } = fit;
  const stops = Object.fromEntries(
    causes.map(({ cause, trigger, clear, crowding, drops }) => [
      cause,
      {
        ...triggerKeys(trigger),
        ...(isShown(crowding)
          ? { crowded: { above: crowding.above, times: rounded(crowding.times.value) } }
          : {}),
        ...(drops !== null && drops.value !== null && drops.value > 0 ? { drops: rounded(drops.value) } : {}),
        ...(clear === null ? {} : { crew: { clear: timeKeys(clear.spec) } }),
      },
    ]),
  );
  return {
    ...(batch?.balls ? { batch: batch.batch } : {}),
    ...(cycle === null ? {} : { cycle: timeKeys(cycle.spec) }),
    // A module that caught nothing at all is not one that could run.
    ...(batch?.catch?.balls ? { catch: rounded(batch.catch.chance.value ?? 1) } : {}),
    ...(Object.keys(stops).length === 0 ? {} : { stops }),
  };
}

function triggerKeys(trigger: StopTriggerSpec): ScenarioFigures {
  switch (trigger.kind) {
    case 'per_cycle':
    case 'per_ball':
      return { [trigger.kind]: rounded(trigger.probability) };
    case 'running':
    case 'clock':
      return { [trigger.kind]: timeKeys(trigger.time) };
    case 'at':
      return { at: trigger.times.map(seconds) };
  }
}

/** A distribution of times as a scenario writes it. */
function timeKeys(spec: DistributionSpec): ScenarioFigure {
  switch (spec.family) {
    case 'constant':
      return seconds(spec.value);
    case 'empirical':
      return { empirical: spec.values.map(seconds) };
    case 'exponential':
      return { exponential: { mean: seconds(spec.mean) } };
    case 'erlang':
      return { erlang: { mean: seconds(spec.mean), stages: spec.stages } };
    case 'uniform':
      return { uniform: { min: seconds(spec.min), max: seconds(spec.max) } };
    case 'triangular':
      return { triangular: { min: seconds(spec.min), mode: seconds(spec.mode), max: seconds(spec.max) } };
    case 'weibull':
      return 'scale' in spec
        ? { weibull: { scale: seconds(spec.scale), shape: rounded(spec.shape) } }
        : { weibull: { mean: seconds(spec.mean), cv: rounded(spec.cv) } };
    default:
      return { [spec.family]: { mean: seconds(spec.mean), cv: rounded(spec.cv) } };
  }
}

function seconds(value: number): string {
  return `${formatNumber(value, { digits: 5 })} s`;
}

/** Digits that anyone would act on, and some. */
function rounded(value: number): number {
  return Number(value.toPrecision(5));
}
