import type { LoopSpec, ModuleSpec } from '@lapwright/sim-core';

function lift(id: string, cycleSeconds: number): ModuleSpec {
  return {
    id,
    basket: { capacity: 150, order: 'fifo', whenFull: { kind: 'spill' } },
    drive: { kind: 'continuous' },
    batch: 1,
    catch: 1,
    cycle: { family: 'constant', value: cycleSeconds },
    travel: { family: 'constant', value: 5 },
    leak: 0,
    stops: [
      {
        id: 'jam',
        trigger: { kind: 'running', time: { family: 'exponential', mean: 600 } },
        drops: 0,
        remedy: { kind: 'itself', time: { family: 'constant', value: 30 } },
      },
    ],
  };
}

/** The loop that examples in doc comments speak of: two lifts, twenty balls, an hour. */
export const exampleLoop: LoopSpec = {
  name: 'Example',
  modules: [lift('quick', 0.8), lift('slow', 1)],
  supply: { kind: 'charge', placed: [10, 10] },
  counter: 0,
  crew: { duty: [{ fromSeconds: 0, minders: 0 }], rule: 'first_come' },
  show: { seconds: 3600, warmUpSeconds: 0 },
};
