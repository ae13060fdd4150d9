import { buildDistribution } from '../distributions/index.js';
import type { LoopSpec, ModuleSpec } from '../model/spec/index.js';
import { moduleAvailability } from './availability.js';
import { floodSeconds } from './floodTime.js';
import { type1Departures } from './type1.js';

/** What can be said of one module without simulating. */
export interface ModuleRoughCut {
  readonly id: string;
  /** Balls per second while it runs: batch x catch / mean cycle. */
  readonly runningBps: number;
  readonly availability: number;
  readonly stopsPerHour: number;
  readonly meanStopSeconds: number;
  /** Minders its stops keep busy on average. */
  readonly mindersBusy: number;
  /** Balls per second in the long run: runningBps x availability. */
  readonly capacityBps: number;
  /** Balls per second that come to it. */
  readonly inflowBps: number;
  /** Balls that usually stand in its basket. */
  readonly standingBalls: number;
  /** Seconds until its basket runs over if it stops now; Infinity when it cannot. */
  readonly floodsAfterSeconds: number;
  /** Seconds until the module before it is held up if it stops now; Infinity when its basket does not back up. */
  readonly holdsUpAfterSeconds: number;
  /** Departures from the type 1 interface standard. */
  readonly type1: readonly string[];
}

/** What can be said of a loop or chain without simulating. */
export interface RoughCut {
  readonly modules: readonly ModuleRoughCut[];
  /** Index of the module with the least capacity. */
  readonly slowest: number;
  /** Balls per second round the loop, or out of the chain; 0 when a module waits for more balls than there are. */
  readonly flowBps: number;
  /** Seconds of a lap (or a way through the chain) at that flow, when nothing stops. */
  readonly freeLapSeconds: number;
  /** Balls needed to keep that flow going; what is above stands in front of the slowest module. Loops only. */
  readonly ballsOnTheMove: number;
  readonly surplusBalls: number;
  /** Most balls the loop carries before the slowest module's basket runs over. Loops only; Infinity if it cannot. */
  readonly mostBalls: number;
  /** Minders that stops and sweeping keep busy on average. */
  readonly mindersBusy: number;
}

/**
 * Rough-cut reckoning of a loop or chain: capacities, the slowest module, where surplus balls pile up, and how soon each
 * basket floods if its module stops.
 *
 * Flow of a closed loop by the asymptotic bounds X <= min(N / R0, capacity of the slowest), with N balls and R0 the lap
 * that nothing holds up (Denning & Buzen 1978, ACM Computing Surveys 10, 225-261, from memory). Chance is left out, so the
 * real flow is lower and the real levels higher; that is what the simulation is for.
 *
 * @throws ParameterError when a distribution cannot be built
 * @example
 * roughCut(exampleLoop).slowest // => 1
 */
export function roughCut(spec: LoopSpec): RoughCut {
  const rates = spec.modules.map((module) => {
    const runningBps = (module.batch * module.catch) / buildDistribution(module.cycle).mean;
    const stops = moduleAvailability(module);
    return { module, runningBps, ...stops, capacityBps: runningBps * stops.availability };
  });
  const slowest = rates.reduce(
    (low, { capacityBps }, m) => (capacityBps < (rates[low]?.capacityBps ?? 0) ? m : low),
    0,
  );
  const least = rates[slowest]?.capacityBps ?? 0;
  const { supply } = spec;
  const charge = supply.kind === 'charge' ? supply.placed.reduce((sum, balls) => sum + balls, 0) : 0;
  const fed = supply.kind === 'feed' ? supply.balls / buildDistribution(supply.every).mean : Infinity;
  // A loop in which one module waits for more balls than there are comes to stand in front of it.
  const stuck =
    supply.kind === 'charge'
      ? spec.modules.findIndex(({ drive }) => drive.kind === 'demand' && drive.startAt > charge)
      : -1;
  const flowBps =
    stuck >= 0 ? 0 : supply.kind === 'charge' ? closedFlow(spec, charge, least) : Math.min(least, fed);
  const { seconds: freeLapSeconds, ballsWaiting } = freeLap(spec, flowBps);
  const ballsOnTheMove = flowBps * freeLapSeconds;
  const surplusBalls = supply.kind === 'charge' ? Math.max(0, charge - ballsOnTheMove) : 0;
  const atLeast = freeLap(spec, least);
  const elsewhere = least * atLeast.seconds - (atLeast.ballsWaiting[slowest] ?? 0);

  const allBalls = supply.kind === 'charge' ? charge + (spec.crew.topUp?.box ?? 0) : Infinity;
  let upstream = supply.kind === 'charge' ? flowBps : fed;
  const modules = rates.map(({ module, ...rate }, m): ModuleRoughCut => {
    const { capacity } = module.basket;
    const inflowBps = upstream;
    upstream = Math.min(upstream, rate.capacityBps);
    const { whenFull } = module.basket;
    const before = m > 0 ? spec.modules[m - 1] : supply.kind === 'charge' ? spec.modules.at(-1) : undefined;
    const usual = (ballsWaiting[m] ?? 0) + (m === (stuck >= 0 ? stuck : slowest) ? surplusBalls : 0);
    const standingBalls = inflowBps > rate.capacityBps ? capacity : Math.min(capacity, usual);
    return {
      id: module.id,
      ...rate,
      inflowBps,
      standingBalls,
      // A basket in which all balls that there are find room cannot flood.
      floodsAfterSeconds:
        allBalls <= capacity ? Infinity : floodSeconds({ capacity, level: standingBalls, inflowBps }),
      holdsUpAfterSeconds:
        before && whenFull.kind === 'back_up'
          ? floodSeconds({
              capacity: capacity + whenFull.holds,
              level:
                standingBalls + Math.min(whenFull.holds, inflowBps * buildDistribution(before.travel).mean),
              inflowBps,
            })
          : Infinity,
      type1: type1Departures(module, rate.runningBps),
    };
  });
  const { sweep } = spec.crew;
  const sweeping = sweep ? buildDistribution(sweep.takes).mean / sweep.everySeconds : 0;
  return {
    modules,
    slowest,
    flowBps,
    freeLapSeconds,
    ballsOnTheMove,
    surplusBalls,
    mostBalls:
      supply.kind === 'charge'
        ? Math.floor((spec.modules[slowest]?.basket.capacity ?? 0) + elsewhere)
        : Infinity,
    mindersBusy: rates.reduce((sum, { mindersBusy }) => sum + mindersBusy, sweeping),
  };
}

/** The largest flow X up to the slowest module's capacity for which X times the free lap is at most the charge. */
function closedFlow(spec: LoopSpec, charge: number, least: number): number {
  const needs = (flow: number): number => flow * freeLap(spec, flow).seconds;
  if (needs(least) <= charge) return least;
  let low = 0;
  let high = least;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (needs(middle) <= charge) low = middle;
    else high = middle;
  }
  return low;
}

/**
 * A lap without queueing behind other batches, at a given flow: each module costs its cycle, its travel, the wait for the
 * next pick (half a cycle of a continuous drive; the gathering of a demand drive), and for a batch larger than its own
 * the cycles until the ball's turn comes.
 */
function freeLap(
  spec: LoopSpec,
  flowBps: number,
): { readonly seconds: number; readonly ballsWaiting: readonly number[] } {
  const { modules, supply } = spec;
  let seconds = 0;
  const last = modules[modules.length - 1];
  let arriving = supply.kind === 'feed' ? supply.balls : last ? batchOf(last, flowBps, 1) : 1;
  // Twice round a loop: the second time the batch that reaches the first module is known.
  if (supply.kind === 'charge') for (const module of modules) arriving = batchOf(module, flowBps, arriving);
  const ballsWaiting = modules.map((module) => {
    const cycle = buildDistribution(module.cycle).mean;
    const pick =
      module.drive.kind === 'continuous'
        ? cycle / 2
        : flowBps > 0
          ? (module.drive.startAt - 1) / 2 / flowBps
          : 0;
    const turn = (Math.max(0, arriving / (module.batch * module.catch) - 1) / 2) * cycle;
    seconds += cycle + buildDistribution(module.travel).mean + pick + turn;
    arriving = batchOf(module, flowBps, arriving);
    return flowBps * (pick + turn);
  });
  return { seconds, ballsWaiting };
}

/** Balls that a module usually releases together: what comes in one cycle, or in one arriving batch, up to its own batch. */
function batchOf(module: ModuleSpec, flowBps: number, arriving: number): number {
  const gathered =
    module.drive.kind === 'demand' ? module.drive.startAt : flowBps * buildDistribution(module.cycle).mean;
  return Math.max(1, Math.min(module.batch * module.catch, Math.max(arriving, gathered)));
}
