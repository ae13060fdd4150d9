import fc from 'fast-check';
import type {
  DistributionSpec,
  LoopSpec,
  ModuleSpec,
  SessionSpec,
  WhenFullSpec,
} from '../../packages/sim-core/src/index.js';
import { randomLoop } from './randomLoops.js';

const time: fc.Arbitrary<DistributionSpec> = fc.constantFrom<DistributionSpec>(
  { family: 'constant', value: 0 },
  { family: 'constant', value: 3 },
  { family: 'exponential', mean: 8 },
);

const lasting: fc.Arbitrary<DistributionSpec> = fc.constantFrom<DistributionSpec>(
  { family: 'constant', value: 3 },
  { family: 'exponential', mean: 8 },
);

/** What is added to one module; indexes are taken modulo what there is. */
const addition = fc.record({
  whenFull: fc.constantFrom('spill', 'back_up', 'back_up', 'return'),
  holds: fc.constantFrom(0, 2, 9, Infinity),
  noBasket: fc.boolean(),
  direct: fc.boolean(),
  to: fc.nat(5),
  clock: fc.option(time),
  back: lasting,
  pull: fc.option(
    fc.record({
      moreThan: fc.option(fc.constantFrom(0, 1, 2), { nil: undefined }),
      outlasts: fc.constantFrom(0, 5, 30),
      spares: fc.subarray([0, 1]),
      chute: fc.option(lasting, { nil: undefined }),
      swap: time,
      mend: fc.option(time, { nil: undefined }),
    }),
  ),
  lever: fc.option(
    fc.record({ watches: fc.array(fc.nat(5), { minLength: 1, maxLength: 2 }), takes: time, time }),
  ),
});

const SESSIONS: readonly SessionSpec[] = [
  { fromSeconds: 0, clockSeconds: 0 },
  { fromSeconds: 50, clockSeconds: 53 },
  { fromSeconds: 90, clockSeconds: 500 },
];

/** Random tables with everything that hands and chutes can do on top of {@link randomLoop}. */
export const randomTable: fc.Arbitrary<LoopSpec> = fc
  .record({
    base: randomLoop,
    additions: fc.array(addition, { minLength: 6, maxLength: 6 }),
    spares: fc.nat(2),
    topUp: fc.option(
      fc.record({ below: fc.nat(40), more: fc.nat(20), box: fc.nat(30), into: fc.nat(5), takes: time }),
    ),
    sessions: fc.boolean(),
  })
  .map(({ base, additions, spares: count, topUp, sessions }) => {
    const closed = base.supply.kind === 'charge';
    const index = (i: number): number => i % base.modules.length;
    const spares = base.modules.slice(0, count).map((module, k) => ({
      ...module,
      id: `spare${k}`,
      stops: module.stops.filter(({ trigger }) => trigger.kind !== 'at'),
    }));
    const modules = base.modules.map((module, m): ModuleSpec => {
      const { whenFull, noBasket, direct, clock, pull, lever, back, ...more } = additions[
        m
      ] as (typeof additions)[0];
      const upstream = m > 0 ? m - 1 : closed ? base.modules.length - 1 : undefined;
      const to = more.to % 2 === 0 ? index(more.to) : (upstream ?? index(more.to));
      const rule: WhenFullSpec =
        whenFull === 'back_up'
          ? { kind: 'back_up', holds: more.holds }
          : whenFull === 'return' && to !== m
            ? { kind: 'return', to, time: back }
            : { kind: 'spill' };
      const bare =
        noBasket && module.catch === 1 && module.drive.kind === 'demand' && module.drive.startAt === 1;
      return {
        ...module,
        basket: { ...module.basket, ...(bare && { capacity: 0 }), whenFull: rule },
        ...(direct && { travel: { family: 'constant', value: 0 } }),
        stops: [
          ...module.stops,
          ...(clock
            ? [
                {
                  id: 'clock',
                  trigger: { kind: 'clock' as const, time: { family: 'exponential' as const, mean: 40 } },
                  drops: 0.5,
                  remedy: { kind: 'crew' as const, notice: clock, walk: clock, clear: clock },
                },
              ]
            : []),
        ],
        ...(pull && {
          pull: {
            ...(pull.moreThan !== undefined && { stops: { moreThan: pull.moreThan, withinSeconds: 60 } }),
            outlastsSeconds: pull.outlasts,
            spares: pull.spares.filter((k) => k < spares.length),
            ...(pull.chute && { chute: pull.chute }),
            swap: pull.swap,
            ...(pull.mend && { mend: pull.mend }),
          },
        }),
        ...(lever && { lever: { ...lever, watches: lever.watches.map(index) } }),
      };
    });
    return {
      ...base,
      modules: withRoom(modules, spares, closed),
      spares,
      supply: closed
        ? {
            kind: 'charge' as const,
            placed:
              base.supply.kind === 'charge'
                ? base.supply.placed.map((balls, m) => Math.min(balls, modules[m]?.basket.capacity ?? 0))
                : [],
          }
        : base.supply,
      crew: {
        ...base.crew,
        ...(closed &&
          topUp && {
            topUp: {
              below: topUp.below,
              upTo: topUp.below + topUp.more,
              box: topUp.box,
              into: index(topUp.into),
              takes: topUp.takes,
            },
          }),
      },
      show: { ...base.show, ...(sessions && { sessions: SESSIONS }) },
    };
  });

/** Lets run-outs hold what they must, so that no batch is held up for ever. */
function withRoom(
  modules: readonly ModuleSpec[],
  spares: readonly ModuleSpec[],
  closed: boolean,
): ModuleSpec[] {
  return modules.map((module, m) => {
    const { whenFull } = module.basket;
    if (whenFull.kind !== 'back_up' || (m === 0 && !closed)) return module;
    const before = modules[m > 0 ? m - 1 : modules.length - 1] as ModuleSpec;
    const there = [module, ...spares];
    const room = Math.min(
      ...there.map(({ basket, drive, batch }) =>
        basket.capacity === 0 ? batch : basket.capacity - (drive.kind === 'demand' ? drive.startAt - 1 : 0),
      ),
    );
    const need = Math.max(
      1,
      ...[before, ...spares].map(({ batch, travel }) =>
        travel.family === 'constant' && travel.value === 0 ? batch - room : batch,
      ),
    );
    const holds =
      whenFull.holds >= need ? whenFull.holds : before.pull || need > 1 ? Math.max(1, need) : need;
    return { ...module, basket: { ...module.basket, whenFull: { kind: 'back_up', holds } } };
  });
}
