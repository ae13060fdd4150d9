import { requireParameter } from '../errors/index.js';
import type { LoopSpec, StopCauseSpec, StopTriggerSpec } from '../model/spec/index.js';

type Time = Extract<StopTriggerSpec, { kind: 'running' }>['time'];

/**
 * The loop with a module that stops more or less often: chances are multiplied by the factor (up to 1), times until the
 * next stop divided by it. With 0 only its planned stops are left; those stay as they are in any case. Spares too.
 *
 * @param id of a module or spare
 * @param factor from 0
 * @throws ParameterError when there is no such module, or the factor is below 0 or not finite
 * @example
 * withStopRate(exampleLoop, 'slow', 2).modules[1].stops[0].trigger // => { kind: 'running', time: { family: 'exponential', mean: 300 } }
 */
export function withStopRate(spec: LoopSpec, id: string, factor: number): LoopSpec {
  requireParameter(factor >= 0 && factor < Infinity, 'withStopRate', 'factor', factor, 'a number from 0');
  const { modules, spares } = spec;
  requireParameter(
    [...modules, ...(spares ?? [])].some((module) => module.id === id),
    'withStopRate',
    'id',
    id,
    'the id of a module or spare',
  );
  const changed = <M extends { readonly id: string; readonly stops: readonly StopCauseSpec[] }>(
    module: M,
  ): M =>
    module.id === id ? { ...module, stops: module.stops.flatMap((cause) => atRate(cause, factor)) } : module;
  return { ...spec, modules: modules.map(changed), ...(spares && { spares: spares.map(changed) }) };
}

function atRate(cause: StopCauseSpec, factor: number): StopCauseSpec[] {
  const { trigger } = cause;
  if (trigger.kind === 'at') return [cause];
  if (factor === 0) return [];
  return [
    {
      ...cause,
      trigger:
        trigger.kind === 'per_cycle' || trigger.kind === 'per_ball'
          ? { ...trigger, probability: Math.min(1, trigger.probability * factor) }
          : { ...trigger, time: shortened(trigger.time, factor) },
    },
  ];
}

function shortened(time: Time, factor: number): Time {
  switch (time.family) {
    case 'constant':
      return { ...time, value: time.value / factor };
    case 'uniform':
      return { ...time, min: time.min / factor, max: time.max / factor };
    case 'triangular':
      return { ...time, min: time.min / factor, mode: time.mode / factor, max: time.max / factor };
    case 'weibull':
      return 'scale' in time
        ? { ...time, scale: time.scale / factor }
        : { ...time, mean: time.mean / factor };
    case 'empirical':
      return { ...time, values: time.values.map((value) => value / factor) };
    case 'normal':
    case 'lognormal':
    case 'gamma':
    case 'erlang':
    case 'exponential':
      return { ...time, mean: time.mean / factor };
  }
}
