import type { LoopSpec } from '@lapwright/sim-core';

/** A ring of so many modules like those of scenarios/loop50.yaml, with as many balls for each. */
export function ringOf(modules: number, seconds: number): LoopSpec {
  return {
    name: `ring of ${modules}`,
    modules: Array.from({ length: modules }, (_, m) => ({
      id: `m${m}`,
      basket: { capacity: 160, order: 'fifo', whenFull: { kind: 'spill' } },
      drive: { kind: 'continuous' },
      batch: 1 + (m % 4),
      catch: 1,
      cycle: { family: 'lognormal', mean: 0.9 * (1 + (m % 4)), cv: 0.05 },
      travel: { family: 'constant', value: 8 + (m % 7) },
      leak: 0,
      stops: [
        {
          id: 'jam',
          trigger: { kind: 'per_cycle', probability: 0.0005 },
          drops: 0,
          remedy: {
            kind: 'crew',
            notice: { family: 'constant', value: 0 },
            walk: { family: 'constant', value: 20 },
            clear: { family: 'exponential', mean: 60 },
          },
        },
      ],
    })),
    supply: { kind: 'charge', placed: Array.from({ length: modules }, () => 14) },
    counter: 0,
    crew: {
      duty: [{ fromSeconds: 0, minders: Math.ceil(0.06 * modules) }],
      rule: 'first_come',
      sweep: { everySeconds: 300, into: 0, takes: { family: 'constant', value: 0 }, lost: 0 },
    },
    show: { seconds, warmUpSeconds: 0 },
  };
}
