import fc from 'fast-check';
import type {
  DistributionSpec,
  LoopSpec,
  ModuleSpec,
  StopCauseSpec,
} from '../../packages/sim-core/src/index.js';

/** Random times of every family, with means from about 0.2 to 20 s. */
const time: fc.Arbitrary<DistributionSpec> = fc.oneof(
  fc.record({ family: fc.constant('constant' as const), value: fc.constantFrom(0.5, 1, 2, 3.5) }),
  fc.record({ family: fc.constant('exponential' as const), mean: fc.constantFrom(0.7, 2, 9) }),
  fc.record({
    family: fc.constant('lognormal' as const),
    mean: fc.constantFrom(0.9, 3),
    cv: fc.constantFrom(0.05, 0.6),
  }),
  fc.record({
    family: fc.constant('uniform' as const),
    min: fc.constantFrom(0, 0.4),
    max: fc.constantFrom(1, 5),
  }),
  fc.record({
    family: fc.constant('erlang' as const),
    mean: fc.constantFrom(1, 4),
    stages: fc.constantFrom(2, 5),
  }),
  fc.record({ family: fc.constant('empirical' as const), values: fc.constant([0.5, 0.9, 1, 4]) }),
);

const travel: fc.Arbitrary<DistributionSpec> = fc.oneof(
  fc.constant<DistributionSpec>({ family: 'constant', value: 0 }),
  time,
);

const stop = (id: string): fc.Arbitrary<StopCauseSpec> =>
  fc
    .record({
      id: fc.constant(id),
      trigger: fc.oneof(
        fc.record({ kind: fc.constant('per_cycle' as const), probability: fc.constantFrom(0, 0.01, 0.2) }),
        fc.record({ kind: fc.constant('per_ball' as const), probability: fc.constantFrom(0.005, 0.1) }),
        fc.record({
          kind: fc.constant('running' as const),
          time: fc.constantFrom<DistributionSpec>(
            { family: 'exponential', mean: 60 },
            { family: 'weibull', scale: 50, shape: 2 },
            { family: 'constant', value: 30 },
          ),
        }),
        fc.record({ kind: fc.constant('at' as const), times: fc.constant([0, 17, 17, 100]) }),
      ),
      drops: fc.constantFrom(0, 0.3, 1),
      remedy: fc.oneof(
        fc.record({ kind: fc.constant('itself' as const), time }),
        fc.record({ kind: fc.constant('crew' as const), notice: travel, walk: travel, clear: time }),
      ),
    })
    .chain((cause) =>
      cause.trigger.kind === 'at'
        ? fc.constant(cause)
        : fc
            .option(fc.record({ above: fc.constantFrom(0, 0.5), times: fc.constantFrom(0, 3) }))
            .map((crowded) => (crowded ? { ...cause, crowded } : cause)),
    );

const oneModule = (id: string): fc.Arbitrary<ModuleSpec> =>
  fc.record({
    id: fc.constant(id),
    basket: fc.record({
      capacity: fc.constantFrom(1, 3, 10, 40, Infinity),
      order: fc.constantFrom('fifo' as const, 'fifo' as const, 'mixed' as const),
      whenFull: fc.constant({ kind: 'spill' } as const),
    }),
    drive: fc.oneof(
      fc.constant({ kind: 'continuous' as const }),
      fc.record({ kind: fc.constant('demand' as const), startAt: fc.constantFrom(1, 1, 2, 5) }),
    ),
    batch: fc.constantFrom(1, 2, 7),
    catch: fc.constantFrom(1, 1, 0.8, 0.3),
    cycle: time,
    travel,
    leak: fc.constantFrom(0, 0, 0.02, 1),
    stops: fc
      .tuple(fc.option(stop('first')), fc.option(stop('second')))
      .map((causes) => causes.flatMap((cause) => cause ?? [])),
  });

const modules: fc.Arbitrary<ModuleSpec[]> = fc
  .integer({ min: 1, max: 6 })
  .chain((count) => fc.tuple(...Array.from({ length: count }, (_, m) => oneModule(`m${m}`))));

/** Random loops and chains with every feature of the model. */
export const randomLoop: fc.Arbitrary<LoopSpec> = modules.chain((all) =>
  fc.record({
    name: fc.constant('random'),
    modules: fc.constant(all),
    supply: fc.oneof(
      fc
        .tuple(...all.map(({ basket }) => fc.integer({ min: 0, max: Math.min(12, basket.capacity) })))
        .map((placed) => ({ kind: 'charge' as const, placed })),
      fc.record({
        kind: fc.constant('feed' as const),
        balls: fc.constantFrom(1, 1, 5),
        every: time,
        first: fc.constantFrom(0, 2.5),
      }),
    ),
    counter: fc.nat({ max: all.length - 1 }),
    crew: fc.record(
      {
        duty: fc.constantFrom(
          [{ fromSeconds: 0, minders: 0 }],
          [{ fromSeconds: 0, minders: 2 }],
          [
            { fromSeconds: 0, minders: 1 },
            { fromSeconds: 60, minders: 0 },
            { fromSeconds: 90, minders: 3 },
          ],
        ),
        rule: fc.constantFrom('first_come' as const, 'fullest_first' as const),
        sweep: fc.record({
          everySeconds: fc.constantFrom(7, 50),
          into: fc.nat({ max: all.length - 1 }),
          takes: travel,
          lost: fc.constantFrom(0, 0.2),
        }),
      },
      { requiredKeys: ['duty', 'rule'] },
    ),
    show: fc.record({ seconds: fc.constantFrom(120, 250), warmUpSeconds: fc.constantFrom(0, 0, 40) }),
  }),
);
