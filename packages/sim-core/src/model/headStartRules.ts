import { buildDistribution, type DistributionSpec } from '../distributions/index.js';
import { isZero } from './equipment.js';
import type { LoopSpec, ModuleSpec } from './spec/index.js';

/** The smallest number a stream of random numbers can give. */
const LEAST_UNIFORM = 2 ** -54;
/** Kept back from the shortest travel time, so that no rounding of times to ticks can matter. */
const HAIR = 0.001;
/** Seconds; a shorter way leaves no room for the hair. */
const SHORTEST_WAY = 0.001;

/** Which places of a loop may run ahead of the queue (see runAhead.ts) if nobody watches them, and what they may count on. */
export class HeadStartRules {
  /** 1 for a place that may run ahead at times; 0 for one that others can reach into at any moment. */
  readonly may: Uint8Array;
  /** Seconds: no batch takes less to come through the run-out of this place, whatever stands there. */
  readonly shortestWay: Float64Array;
  /** Seconds: no sweep, and no top-up, that needs a minder takes less. */
  readonly shortestSweep: number;
  readonly shortestTopUp: number;
  /** Seconds: no setting of the lever of this place takes less; Infinity where there is none. */
  readonly shortestLever: Float64Array;

  constructor(spec: LoopSpec) {
    const { modules, supply } = spec;
    const n = modules.length;
    const closed = supply.kind === 'charge';
    this.shortestWay = Float64Array.from(modules, (module) => shortestWay(spec, module));
    const canLock = closed && modules.some(backsUp);
    const busiest = modules.reduce((sum, { cycle }) => sum + 1 / buildDistribution(cycle).mean, 0) / n;
    // On a shorter way so little can happen ahead that it would not be worth looking.
    const longEnough = Math.max(SHORTEST_WAY, 0.5 / busiest);
    const { sweep, topUp } = spec.crew;
    this.shortestSweep = sweep ? shortest([sweep.takes]) : Infinity;
    this.shortestTopUp = topUp ? shortest([topUp.takes]) : Infinity;
    this.shortestLever = Float64Array.from(modules, ({ lever }) =>
      lever ? shortest([lever.takes]) : Infinity,
    );
    const reached = reachedByChutes(spec);
    if (sweep && !isZero(sweep.takes) && this.shortestSweep < longEnough) reached.add(sweep.into);
    if (topUp && this.shortestTopUp < longEnough) reached.add(topUp.into);
    this.may = Uint8Array.from(modules, (module, m) => {
      const before = m > 0 ? m - 1 : n - 1;
      const after = m + 1 < n || closed ? modules[(m + 1) % n] : undefined;
      const may =
        (m > 0 || closed) &&
        this.shortestWay[before] >= longEnough &&
        !reached.has(m) &&
        !backsUp(module) &&
        !(after && backsUp(after)) &&
        this.shortestLever[m] >= longEnough &&
        // With this rule a job at its lever asks how full its basket is.
        (module.lever === undefined || spec.crew.rule !== 'fullest_first') &&
        module.stops.every(({ trigger }) => trigger.kind !== 'clock' && trigger.kind !== 'at') &&
        // Whether a loop is locked is asked of demand drives: of these it must be known what they do now.
        (!canLock || module.drive.kind === 'continuous');
      return may ? 1 : 0;
    });
  }
}

/** Places into whose basket the overflow of others comes. */
function reachedByChutes({ modules }: LoopSpec): Set<number> {
  const reached = new Set<number>();
  for (const { basket } of modules) if (basket.whenFull.kind === 'return') reached.add(basket.whenFull.to);
  return reached;
}

function backsUp({ basket }: ModuleSpec): boolean {
  return basket.whenFull.kind === 'back_up';
}

function shortestWay({ spares = [] }: LoopSpec, { travel, pull }: ModuleSpec): number {
  const ways = [travel];
  for (const k of pull?.spares ?? []) ways.push(...spares.slice(k, k + 1).map((spare) => spare.travel));
  if (pull?.chute) ways.push(pull.chute);
  return shortest(ways);
}

/** Less than any of these times will ever be. */
function shortest(times: readonly DistributionSpec[]): number {
  return Math.min(...times.map((time) => buildDistribution(time).quantile(LEAST_UNIFORM))) * (1 - HAIR);
}
