import type {
  DistributionSpec,
  LoopSpec,
  ModuleSpec,
  StopCauseSpec,
} from '../packages/sim-core/src/index.js';

/** Small builders of specs for tests: a sturdy module that tests change as they need. */
export const seconds = (value: number): DistributionSpec => ({ family: 'constant', value });

export function module(id: string, changes: Partial<ModuleSpec> = {}): ModuleSpec {
  return {
    id,
    basket: { capacity: Infinity, order: 'fifo', whenFull: { kind: 'spill' } },
    drive: { kind: 'demand', startAt: 1 },
    batch: 1,
    catch: 1,
    cycle: seconds(1),
    travel: seconds(0),
    leak: 0,
    stops: [],
    ...changes,
  };
}

export const holds = (capacity: number, order: 'fifo' | 'mixed' = 'fifo'): ModuleSpec['basket'] => ({
  capacity,
  order,
  whenFull: { kind: 'spill' },
});

export function loop(
  modules: readonly ModuleSpec[],
  placed: readonly number[],
  changes: Partial<LoopSpec> = {},
): LoopSpec {
  return {
    name: 'test loop',
    modules,
    supply: { kind: 'charge', placed },
    counter: 0,
    crew: { duty: [{ fromSeconds: 0, minders: 1 }], rule: 'first_come' },
    show: { seconds: 3600, warmUpSeconds: 0 },
    ...changes,
  };
}

/** An open chain fed with one ball every `every` seconds from the opening on. */
export function chain(
  modules: readonly ModuleSpec[],
  every: number,
  changes: Partial<LoopSpec> = {},
): LoopSpec {
  return loop(modules, [], {
    supply: { kind: 'feed', balls: 1, every: seconds(every), first: 0 },
    counter: modules.length - 1,
    ...changes,
  });
}

/** A stop at given times that frees itself. */
export function plannedStop(
  times: readonly number[],
  lasts: number,
  changes: Partial<StopCauseSpec> = {},
): StopCauseSpec {
  return {
    id: 'planned',
    trigger: { kind: 'at', times },
    drops: 0,
    remedy: { kind: 'itself', time: seconds(lasts) },
    ...changes,
  };
}

export const lasting = (total: number, warmUp = 0): LoopSpec['show'] => ({
  seconds: total,
  warmUpSeconds: warmUp,
});
