import { buildDistribution, type DistributionSpec } from '../distributions/index.js';
import { requireParameter } from '../errors/index.js';
import type { LoopSpec, ModuleSpec, StopCauseSpec } from '../model/spec/index.js';

/** How a module is put on the bench. */
export interface BenchOptions {
  /** How long it is watched, seconds. */
  readonly seconds: number;
  /** How full its basket is kept, share of what it holds, above 0 and at most 0.95. @default 0.5 */
  readonly fill?: number;
}

/** Balls that wait in a basket without a bottom, unless a batch is more. */
const PLENTY = 200;
/** Seconds between two looks for balls on the floor. */
const SWEEP_SECONDS = 60;

/**
 * A module alone on the bench, with balls always waiting: what it lets go is carried back into its own basket, and the one
 * who watches stands beside it, so that stops are noticed at once and nobody has to walk.
 *
 * @throws ParameterError when it has no basket, or one that cannot hold what a cycle needs
 * @example
 * benchSpec(exampleLoop.modules[0], { seconds: 600 }).modules.length // => 1
 */
export function benchSpec(module: ModuleSpec, { seconds, fill = 0.5 }: BenchOptions): LoopSpec {
  const where = 'benchSpec';
  requireParameter(fill > 0 && fill <= 0.95, where, 'fill', fill, 'above 0 and at most 0.95');
  requireParameter(seconds > 0 && seconds < Infinity, where, 'seconds', seconds, 'a finite number above 0');
  const { basket, batch, drive } = module;
  const { capacity } = basket;
  const needed = Math.max(batch, drive.kind === 'demand' ? drive.startAt : 1);
  requireParameter(capacity >= needed, where, 'basket', capacity, `room for the ${needed} balls of a cycle`);
  const waiting = capacity === Infinity ? Math.max(PLENTY, 2 * needed) : Math.round(fill * capacity);
  const placed = Math.min(capacity, Math.max(needed, waiting) + onTheWay(module));
  const { pull: _pull, lever: _lever, ...alone } = module;
  return {
    name: `${module.id} on the bench`,
    modules: [
      {
        ...alone,
        basket: { ...basket, whenFull: { kind: 'spill' } },
        stops: module.stops.map(atHand),
      },
    ],
    supply: { kind: 'charge', placed: [placed] },
    counter: 0,
    crew: {
      duty: [{ fromSeconds: 0, minders: 1 }],
      rule: 'first_come',
      sweep: { everySeconds: SWEEP_SECONDS, into: 0, takes: NO_TIME, lost: 0 },
    },
    show: { seconds, warmUpSeconds: 0 },
  };
}

const NO_TIME: DistributionSpec = { family: 'constant', value: 0 };

/** Balls that are in the mechanism or on their way back, on average. */
function onTheWay({ batch, cycle, travel }: ModuleSpec): number {
  const cycles = 1 + buildDistribution(travel).mean / buildDistribution(cycle).mean;
  return Math.ceil(batch * cycles);
}

function atHand(cause: StopCauseSpec): StopCauseSpec {
  return cause.remedy.kind === 'itself'
    ? cause
    : { ...cause, remedy: { ...cause.remedy, notice: NO_TIME, walk: NO_TIME } };
}
