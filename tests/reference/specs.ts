import type { DistributionSpec } from '../../packages/sim-core/src/distributions/index.js';
import type {
  DriveSpec,
  LoopSpec,
  ModuleSpec,
  ShowSpec,
  StopCauseSpec,
} from '../../packages/sim-core/src/model/spec/index.js';

/*
 * Short words for the specs of the reference cases, so that a case reads like its published description.
 */

export const constant = (value: number): DistributionSpec => ({ family: 'constant', value });

export const exponential = (mean: number): DistributionSpec => ({ family: 'exponential', mean });

export const erlang = (mean: number, stages: number): DistributionSpec => ({
  family: 'erlang',
  mean,
  stages,
});

export const lognormal = (mean: number, cv: number): DistributionSpec => ({ family: 'lognormal', mean, cv });

/** Time between the arrivals of a Poisson stream. */
export const poisson = (perSecond: number): DistributionSpec => exponential(1 / perSecond);

export const CONTINUOUS: DriveSpec = { kind: 'continuous' };

export const onDemand = (startAt: number): DriveSpec => ({ kind: 'demand', startAt });

/** A machine, unless said otherwise: one ball at a time as soon as one is there, endless basket, no way to go. */
export function machine(cycle: DistributionSpec, but: Partial<ModuleSpec> = {}): ModuleSpec {
  return {
    id: 'machine',
    basket: basket(Infinity),
    drive: onDemand(1),
    batch: 1,
    catch: 1,
    cycle,
    travel: constant(0),
    leak: 0,
    stops: [],
    ...but,
  };
}

export function basket(capacity: number): ModuleSpec['basket'] {
  return { capacity, order: 'fifo', whenFull: { kind: 'spill' } };
}

/**
 * The basket beside a mechanism in a module that holds `total` balls: published totals count the ball in the mechanism,
 * a basket's capacity does not.
 */
export function basketOfModule(total: number): ModuleSpec['basket'] {
  return basket(total - 1);
}

/** The same basket, which holds up the machine before it when it is full: blocking after service. */
export function holdsUp(own: ModuleSpec['basket']): ModuleSpec['basket'] {
  return { ...own, whenFull: { kind: 'back_up', holds: 0 } };
}

/**
 * A row of machines with so many places between each and the next; the first never lacks balls, the last always gets rid
 * of them. A loop back into an endless basket with more balls than all the others can hold.
 */
export function blockingLine(cycles: readonly DistributionSpec[], spaces: number, show: ShowSpec): LoopSpec {
  const modules = cycles.map((cycle, m) =>
    machine(cycle, { id: `machine ${m}`, basket: m === 0 ? basket(Infinity) : holdsUp(basket(spaces)) }),
  );
  const balls = (spaces + 1) * (modules.length - 1) + 2;
  return spec(modules, { kind: 'charge', placed: modules.map((_, m) => (m === 0 ? balls : 0)) }, 0, 0, show);
}

/** A stop that frees itself. */
export function freesItself(trigger: StopCauseSpec['trigger'], time: DistributionSpec): StopCauseSpec {
  return { id: 'stop', trigger, drops: 0, remedy: { kind: 'itself', time } };
}

/** A show of which the first part is left out, until the start is forgotten. */
export function steady(warmUpSeconds: number, measuredSeconds: number): ShowSpec {
  return { seconds: warmUpSeconds + measuredSeconds, warmUpSeconds };
}

/** A show measured from its opening on. */
export function fromTheStart(seconds: number): ShowSpec {
  return { seconds, warmUpSeconds: 0 };
}

/** Where the balls of an open chain come from. */
export interface Feed {
  readonly every: DistributionSpec;
  /** @default 1 */
  readonly balls?: number;
  readonly first?: number;
}

/** A row of machines between a feed and a tray, counted at the last. */
export function chain(feed: Feed, modules: readonly ModuleSpec[], show: ShowSpec): LoopSpec {
  const { balls = 1 } = feed;
  return spec(modules, { kind: 'feed', ...feed, balls }, modules.length - 1, 0, show);
}

/** A closed loop, counted at the first machine, with its balls spread evenly over the baskets. */
export function loop(balls: number, modules: readonly ModuleSpec[], show: ShowSpec): LoopSpec {
  const n = modules.length;
  const placed = modules.map((_, m) => Math.floor(balls / n) + (m < balls % n ? 1 : 0));
  return spec(modules, { kind: 'charge', placed }, 0, 0, show);
}

/** A closed loop of one machine and two balls: one is always waiting when the other comes back, so it never starves. */
export function neverStarved(module: ModuleSpec, show: ShowSpec): LoopSpec {
  return loop(2, [module], show);
}

/** Machines that run whenever they are up, and a crew that repairs them in order of request. */
export interface RepairShop {
  readonly machines: number;
  /** Running seconds until the next stop. */
  readonly up: DistributionSpec;
  readonly repair: DistributionSpec;
  readonly minders: number;
  /** Of a machine's cycle: only how often an event falls due depends on it. */
  readonly cycleSeconds: number;
  readonly show: ShowSpec;
}

export function repairShop(shop: RepairShop): LoopSpec {
  const remedy = { kind: 'crew', notice: constant(0), walk: constant(0), clear: shop.repair } as const;
  const modules = Array.from({ length: shop.machines }, (_, m) =>
    machine(constant(shop.cycleSeconds), {
      id: `machine ${m}`,
      drive: CONTINUOUS,
      stops: [{ id: 'stop', trigger: { kind: 'running', time: shop.up }, drops: 0, remedy }],
    }),
  );
  const placed = modules.map(() => 0);
  return spec(modules, { kind: 'charge', placed }, 0, shop.minders, shop.show);
}

function spec(
  modules: readonly ModuleSpec[],
  supply: LoopSpec['supply'],
  counter: number,
  minders: number,
  show: ShowSpec,
): LoopSpec {
  return {
    name: 'reference case',
    modules,
    supply,
    counter,
    crew: { duty: [{ fromSeconds: 0, minders }], rule: 'first_come' },
    show,
  };
}
