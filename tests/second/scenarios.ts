import type {
  LoopSpec,
  ModuleSpec,
  SessionSpec,
  StopCauseSpec,
  WhenFullSpec,
} from '../../packages/sim-core/src/model/spec/index.js';
import { Dice } from './generator.js';
import type { Time } from './luck.js';

/*
 * Random small scenarios in which nothing is left to chance: all times are whole quarters of a second, so that much falls
 * on the same instant.
 */

const constant = (value: number): Time => ({ family: 'constant', value });

/** Quarters of a second. */
const quarters = (dice: Dice, from: number, to: number): Time => constant(dice.whole(from, to) / 4);

/** What all modules of a scenario have in common. */
interface Common {
  readonly modules: number;
  readonly seconds: number;
  /** No mechanism takes more. */
  readonly batch: number;
  /** Some drives are continuous: their picks fall between whole quarters of a second, and clocks cannot run faster then. */
  readonly continuous: boolean;
  /** No run-out takes any time, and none needs to hold a ball; one ball at a time. */
  readonly tight: boolean;
}

function stopCause(dice: Dice, id: string, capacity: number, { seconds, continuous }: Common): StopCauseSpec {
  const kind = dice.oneOf(['at', 'at', 'running', 'running', 'clock'] as const);
  const trigger: StopCauseSpec['trigger'] =
    kind === 'at'
      ? {
          kind,
          times: Array.from({ length: dice.whole(1, 6) }, () => dice.whole(0, seconds * 2) / 2).sort(
            (a, b) => a - b,
          ),
        }
      : { kind, time: quarters(dice, 6, 60) };
  return {
    id,
    trigger,
    ...(kind === 'running' &&
      capacity < Infinity &&
      dice.chance(0.4) && {
        crowded: { above: dice.oneOf([0, 0.5]), times: dice.oneOf(continuous ? [0] : [0, 2, 4]) },
      }),
    drops: dice.chance(0.25) ? 1 : 0,
    remedy: dice.chance(0.4)
      ? { kind: 'itself', time: quarters(dice, 0, 24) }
      : {
          kind: 'crew',
          notice: quarters(dice, 0, 8),
          walk: quarters(dice, 0, 8),
          clear: quarters(dice, 0, 24),
        },
  };
}

function whenFull(dice: Dice, at: number, { modules, batch, tight }: Common): WhenFullSpec {
  const kind = dice.oneOf(['spill', 'back_up', 'back_up', 'return'] as const);
  if (kind === 'back_up') return { kind, holds: tight ? dice.whole(0, 2) : batch + dice.whole(0, 4) };
  if (kind === 'spill' || modules === 1) return { kind: 'spill' };
  const to = (at + dice.whole(1, modules - 1)) % modules;
  return { kind, to, time: quarters(dice, 1, 12) };
}

function oneModule(dice: Dice, id: string, at: number, by: Common): ModuleSpec {
  const capacity = dice.oneOf([0, 1, 2, 3, 5, 8, Infinity]);
  const drive: ModuleSpec['drive'] =
    capacity === 0 || !by.continuous || dice.chance(0.5)
      ? {
          kind: 'demand',
          startAt: capacity === 0 || dice.chance(0.7) ? 1 : dice.whole(1, Math.min(3, capacity)),
        }
      : { kind: 'continuous' };
  return {
    id,
    basket: { capacity, order: 'fifo', whenFull: whenFull(dice, at, by) },
    drive,
    batch: dice.whole(1, by.batch),
    catch: 1,
    cycle: quarters(dice, 1, 10),
    travel: by.tight || dice.chance(0.2) ? constant(0) : quarters(dice, 1, 12),
    leak: dice.chance(0.04) ? 1 : 0,
    stops: Array.from({ length: dice.oneOf([0, 1, 1, 2]) }, (_, i) =>
      stopCause(dice, `cause${i}`, capacity, by),
    ),
  };
}

/** A spare has no planned stops. */
function spare(dice: Dice, id: string, by: Common): ModuleSpec {
  const module = oneModule(dice, id, 0, by);
  return { ...module, stops: module.stops.filter(({ trigger }) => trigger.kind !== 'at') };
}

function pullRule(dice: Dice, spares: number, { tight }: Common): NonNullable<ModuleSpec['pull']> {
  const byCount = dice.chance(0.6);
  const first = dice.whole(0, Math.max(0, spares - 1));
  const list = Array.from({ length: spares }, (_, i) => (first + i) % spares).slice(
    0,
    dice.whole(tight ? 1 : 0, spares),
  );
  return {
    ...(byCount && { stops: { moreThan: dice.whole(0, 2), withinSeconds: dice.whole(20, 240) / 4 } }),
    ...((!byCount || dice.chance(0.5)) && { outlastsSeconds: dice.whole(4, 40) / 4 }),
    spares: list,
    ...(!tight && (list.length === 0 || dice.chance(0.4)) && { chute: quarters(dice, 1, 8) }),
    swap: quarters(dice, 0, 16),
    ...(dice.chance(0.75) && { mend: quarters(dice, 0, 60) }),
  };
}

function lever(dice: Dice, modules: number): NonNullable<ModuleSpec['lever']> {
  const watches = Array.from({ length: modules }, (_, m) => m).filter(() => dice.chance(0.6));
  return {
    watches: watches.length > 0 ? watches : [dice.whole(0, modules - 1)],
    takes: dice.chance(0.3) ? constant(0) : quarters(dice, 1, 12),
    time: quarters(dice, 0, 8),
  };
}

function sessions(dice: Dice, seconds: number): readonly SessionSpec[] {
  const starts = [...new Set([0, dice.whole(1, seconds - 1), dice.whole(1, seconds - 1)])].sort(
    (a, b) => a - b,
  );
  let clock = 0;
  return starts.map((fromSeconds, i) => {
    if (i > 0) clock += fromSeconds - (starts[i - 1] ?? 0) + dice.oneOf([0.25, 5, 10, 50]);
    return { fromSeconds, clockSeconds: clock };
  });
}

function crew(dice: Dice, modules: number, seconds: number, closed: boolean): LoopSpec['crew'] {
  const changes = dice.chance(0.4) ? [dice.whole(1, seconds), dice.whole(1, seconds)] : [];
  const duty = [0, ...new Set(changes.sort((a, b) => a - b))].map((fromSeconds) => ({
    fromSeconds,
    minders: dice.oneOf([0, 1, 1, 1, 2, 3]),
  }));
  const below = dice.whole(1, 8);
  return {
    duty,
    rule: dice.oneOf(['first_come', 'fullest_first'] as const),
    ...(dice.chance(0.5) && {
      sweep: {
        everySeconds: dice.whole(12, 100) / 4,
        into: dice.whole(0, modules - 1),
        takes: dice.chance(0.4) ? constant(0) : quarters(dice, 1, 20),
        lost: dice.chance(0.3) ? 1 : 0,
      },
    }),
    ...(closed &&
      dice.chance(0.5) && {
        topUp: {
          below,
          upTo: below + dice.whole(0, 4),
          box: dice.whole(1, 12),
          into: dice.whole(0, modules - 1),
          takes: dice.chance(0.4) ? constant(0) : quarters(dice, 1, 20),
        },
      }),
  };
}

/**
 * The same with more balls than can move: all places back up and hold little, and what is still missing comes from the box.
 */
function crammed(spec: LoopSpec): LoopSpec {
  const modules = spec.modules.map((module, m): ModuleSpec => {
    const capacity = 1 + (m % 2);
    const { pull: _, ...rest } = module;
    return {
      ...rest,
      basket: { capacity, order: 'fifo', whenFull: { kind: 'back_up', holds: m % 3 } },
      drive: { kind: 'demand', startAt: 1 },
      batch: 1,
      travel: constant(0),
      leak: 0,
    };
  });
  return {
    ...spec,
    modules,
    supply: { kind: 'charge', placed: modules.map(({ basket }) => basket.capacity) },
    crew: {
      ...spec.crew,
      topUp: { below: 100, upTo: 100, box: 10 * modules.length, into: 0, takes: constant(0.5) },
    },
  };
}

/**
 * A small loop or chain with constant times and certain chances; the same for the same number.
 *
 * In some, far beyond the first thousands, a clock that is sped up by powers of two again and again comes to strike at half a
 * tick, which may be rounded either way.
 */
export function certainScenario(number: number): LoopSpec {
  const spec = anyScenario(number);
  return number % 15 === 0 ? crammed(spec) : spec;
}

function anyScenario(number: number): LoopSpec {
  const dice = new Dice(number);
  const count = dice.whole(1, 5);
  const seconds = dice.oneOf([60, 120, 240]);
  const tight = dice.chance(0.35);
  const batch = tight ? 1 : dice.whole(1, 3);
  const spareCount = dice.whole(0, 2);
  const by: Common = { modules: count, seconds, batch, tight, continuous: dice.chance(0.4) };
  const closed = dice.chance(0.7);
  const modules = Array.from({ length: count }, (_, m): ModuleSpec => ({
    ...oneModule(dice, `m${m}`, m, by),
    ...(dice.chance(0.4) && (!tight || spareCount > 0) && { pull: pullRule(dice, spareCount, by) }),
    ...(dice.chance(0.35) && { lever: lever(dice, count) }),
  }));
  const placed = modules.map(({ basket }) => Math.min(basket.capacity, dice.whole(0, 6)));
  const spares = Array.from({ length: spareCount }, (_, i) => spare(dice, `spare${i}`, by));
  return {
    name: `scenario ${number}`,
    modules,
    ...(spareCount > 0 && { spares }),
    supply: closed
      ? { kind: 'charge', placed }
      : {
          kind: 'feed',
          balls: dice.oneOf([1, 1, 2, 5]),
          every: quarters(dice, 2, 20),
          ...(dice.chance(0.7) && { first: dice.whole(0, 8) / 4 }),
        },
    counter: dice.whole(0, count - 1),
    crew: crew(dice, count, seconds, closed),
    show: {
      seconds,
      warmUpSeconds: dice.chance(0.3) ? dice.whole(1, 20) : 0,
      ...(dice.chance(0.3) && { sessions: sessions(dice, seconds) }),
    },
  };
}
