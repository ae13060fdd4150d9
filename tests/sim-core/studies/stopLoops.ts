import type { FeedSpec, LoopSpec, ModuleSpec } from '@lapwright/sim-core';

/** A lift of constant times that takes each ball as it comes, as a base for tests. */
export function lift(id: string, changes: Partial<ModuleSpec> = {}): ModuleSpec {
  return {
    id,
    basket: { capacity: 30, order: 'fifo', whenFull: { kind: 'spill' } },
    drive: { kind: 'demand', startAt: 1 },
    batch: 1,
    catch: 1,
    cycle: { family: 'constant', value: 0.8 },
    travel: { family: 'constant', value: 5 },
    leak: 0,
    stops: [],
    ...changes,
  };
}

/** An open chain with nobody to mind it. */
export function chain(
  modules: readonly ModuleSpec[],
  every: FeedSpec['every'],
  seconds: number,
  first?: number,
): LoopSpec {
  return {
    name: 'chain',
    modules,
    supply: { kind: 'feed', balls: 1, every, ...(first !== undefined && { first }) },
    counter: modules.length - 1,
    crew: { duty: [{ fromSeconds: 0, minders: 0 }], rule: 'first_come' },
    show: { seconds, warmUpSeconds: 0 },
  };
}

/** Puts what has fallen back every two minutes, without a minder. */
export const SWEEP = {
  everySeconds: 120,
  into: 0,
  takes: { family: 'constant' as const, value: 0 },
  lost: 0,
};

/**
 * A loop in which much is left to chance: five lifts of different batches, one of which jams now and then and frees
 * itself. Nothing depends on minders, so a stop changes nothing upstream until its balls come round.
 */
export function chancyLoop(changes: Partial<LoopSpec> = {}): LoopSpec {
  const spread = (mean: number, cv: number): ModuleSpec['cycle'] => ({ family: 'lognormal', mean, cv });
  const basket = (capacity: number): ModuleSpec['basket'] => ({
    capacity,
    order: 'fifo',
    whenFull: { kind: 'spill' },
  });
  const continuous = { drive: { kind: 'continuous' as const } };
  const jam: ModuleSpec['stops'] = [
    {
      id: 'jam',
      trigger: { kind: 'per_ball', probability: 0.004 },
      drops: 0,
      remedy: { kind: 'itself', time: { family: 'exponential', mean: 30 } },
    },
  ];
  const modules = [
    lift('quick', { ...continuous, basket: basket(80), cycle: spread(0.7, 0.3) }),
    lift('jams', { ...continuous, basket: basket(60), cycle: spread(0.8, 0.5), stops: jam }),
    lift('tips', {
      basket: basket(60),
      drive: { kind: 'demand', startAt: 6 },
      batch: 6,
      cycle: spread(4, 0.2),
    }),
    lift('slow', { ...continuous, basket: basket(150), batch: 2, cycle: spread(2, 0.4) }),
    lift('last', { ...continuous, basket: basket(50), cycle: spread(0.75, 0.3), travel: spread(6, 0.4) }),
  ];
  return {
    name: 'chancy',
    modules,
    supply: { kind: 'charge', placed: [30, 20, 20, 30, 20] },
    counter: 0,
    crew: { duty: [{ fromSeconds: 0, minders: 0 }], rule: 'first_come', sweep: SWEEP },
    show: { seconds: 7200, warmUpSeconds: 0 },
    ...changes,
  };
}
