import type { LoopSpec, ModuleSpec, StopCauseSpec } from '../../packages/sim-core/src/model/spec/index.js';
import { Dice } from './generator.js';
import type { Time } from './luck.js';
import { certainScenario } from './scenarios.js';

/*
 * Random small scenarios in which much is left to chance: those with certain times, with a random time of the same mean in
 * the place of each, and chances between 0 and 1.
 */

/** A family for each time that lasts at all. */
function randomTime(dice: Dice, time: Time): Time {
  if (time.family !== 'constant' || time.value === 0) return time;
  const mean = time.value;
  return dice.oneOf<Time>([
    time,
    { family: 'exponential', mean },
    { family: 'lognormal', mean, cv: dice.oneOf([0.2, 0.8]) },
    { family: 'uniform', min: 0.2 * mean, max: 1.8 * mean },
    { family: 'triangular', min: 0.5 * mean, mode: 0.6 * mean, max: 1.9 * mean },
    { family: 'erlang', mean, stages: 3 },
    { family: 'gamma', mean, cv: dice.oneOf([0.5, 1.3]) },
    { family: 'empirical', values: [0.5 * mean, 0.75 * mean, mean, 1.75 * mean] },
  ]);
}

/** For times whose mean need not be known beforehand. */
function anyRandomTime(dice: Dice, time: Time): Time {
  if (time.family !== 'constant' || time.value === 0 || dice.chance(0.7)) return randomTime(dice, time);
  return dice.oneOf<Time>([
    { family: 'weibull', scale: time.value, shape: dice.oneOf([0.8, 2]) },
    { family: 'normal', mean: time.value, cv: 0.4 },
  ]);
}

function randomCause(dice: Dice, cause: StopCauseSpec, capacity: number): StopCauseSpec {
  const { remedy, crowded } = cause;
  const random = (time: Time): Time => anyRandomTime(dice, time);
  const trigger = randomTrigger(dice, cause.trigger);
  const crowding =
    trigger.kind === 'at' || trigger.kind === 'clock' || capacity === Infinity
      ? undefined
      : (crowded ?? (dice.chance(0.4) ? { above: 0.5, times: dice.oneOf([0.5, 3]) } : undefined));
  return {
    id: cause.id,
    trigger,
    ...(crowding && { crowded: crowding }),
    drops: cause.drops === 0 ? 0 : 0.4,
    remedy:
      remedy.kind === 'itself'
        ? { kind: 'itself', time: random(remedy.time) }
        : {
            kind: 'crew',
            notice: random(remedy.notice),
            walk: random(remedy.walk),
            clear: random(remedy.clear),
          },
  };
}

function randomTrigger(dice: Dice, trigger: StopCauseSpec['trigger']): StopCauseSpec['trigger'] {
  if (trigger.kind === 'running' || trigger.kind === 'clock')
    return { kind: trigger.kind, time: anyRandomTime(dice, trigger.time) };
  if (trigger.kind !== 'at' || dice.chance(0.3)) return trigger;
  return dice.oneOf<StopCauseSpec['trigger']>([
    { kind: 'per_cycle', probability: dice.oneOf([0.03, 0.2]) },
    { kind: 'per_ball', probability: dice.oneOf([0.03, 0.1]) },
  ]);
}

function randomModule(dice: Dice, module: ModuleSpec): ModuleSpec {
  const { basket, pull, lever } = module;
  const random = (time: Time): Time => anyRandomTime(dice, time);
  const { whenFull } = basket;
  return {
    ...module,
    basket: {
      ...basket,
      order: dice.chance(0.3) ? 'mixed' : 'fifo',
      whenFull: whenFull.kind === 'return' ? { ...whenFull, time: random(whenFull.time) } : whenFull,
    },
    catch: basket.capacity === 0 ? 1 : dice.oneOf([1, 1, 0.9, 0.5]),
    cycle: randomTime(dice, module.cycle),
    travel: random(module.travel),
    leak: dice.oneOf([0, 0, 0.02, 0.1]),
    stops: module.stops.map((cause) => randomCause(dice, cause, basket.capacity)),
    ...(pull && {
      pull: {
        ...pull,
        ...(pull.chute && { chute: random(pull.chute) }),
        swap: random(pull.swap),
        ...(pull.mend && { mend: random(pull.mend) }),
      },
    }),
    ...(lever && { lever: { ...lever, takes: random(lever.takes), time: random(lever.time) } }),
  };
}

/** A small loop or chain in which much is left to chance; the same for the same number. */
export function chancyScenario(number: number): LoopSpec {
  const dice = new Dice(1_000_000 + number);
  const spec = certainScenario(number);
  const { supply, crew } = spec;
  return {
    ...spec,
    modules: spec.modules.map((module) => randomModule(dice, module)),
    ...(spec.spares && { spares: spec.spares.map((spare) => randomModule(dice, spare)) }),
    supply: supply.kind === 'charge' ? supply : { ...supply, every: anyRandomTime(dice, supply.every) },
    crew: {
      ...crew,
      ...(crew.sweep && {
        sweep: {
          ...crew.sweep,
          takes: anyRandomTime(dice, crew.sweep.takes),
          lost: crew.sweep.lost > 0 ? 0.3 : 0,
        },
      }),
      ...(crew.topUp && { topUp: { ...crew.topUp, takes: anyRandomTime(dice, crew.topUp.takes) } }),
    },
  };
}

/** Two modules whose cycles are nearly as long as the show: it matters when the first pick falls, and where a stop strikes. */
export function longCycles(): LoopSpec {
  const module: ModuleSpec = {
    id: 'm0',
    basket: { capacity: 5, order: 'fifo', whenFull: { kind: 'spill' } },
    drive: { kind: 'continuous' },
    batch: 1,
    catch: 1,
    cycle: { family: 'uniform', min: 8, max: 12 },
    travel: { family: 'exponential', mean: 1 },
    leak: 0,
    stops: [
      {
        id: 'cause0',
        trigger: { kind: 'per_cycle', probability: 0.5 },
        drops: 0.5,
        remedy: { kind: 'itself', time: { family: 'exponential', mean: 20 } },
      },
    ],
  };
  return {
    name: 'long cycles',
    modules: [module, { ...module, id: 'm1', drive: { kind: 'demand', startAt: 1 } }],
    supply: { kind: 'charge', placed: [3, 2] },
    counter: 0,
    crew: { duty: [{ fromSeconds: 0, minders: 0 }], rule: 'first_come' },
    show: { seconds: 25, warmUpSeconds: 0 },
  };
}
