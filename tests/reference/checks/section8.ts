import {
  type LoopView,
  type MeasurePlan,
  PLACES,
  type ReplicationResult,
  simulate,
} from '../../../packages/sim-core/src/model/index.js';
import type { LoopSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { type CheckGroup, type Metric, sampled } from '../check.js';
import { partOf, WHOLE } from '../length.js';
import { at, type Reading, run, SEED, spills } from '../measure.js';
import { exact, listParam, param } from '../published.js';
import { squareAbout } from '../remarks.js';
import {
  basket,
  basketOfModule,
  chain,
  constant,
  exponential,
  fromTheStart,
  machine,
  onDemand,
  poisson,
} from '../specs.js';
import { whatIf, whatIfs } from './whatIfs.js';

/* From a known beginning: how soon a basket is full, what a stop leads to. */

const yes = (happened: boolean): Reading => [happened ? 1 : 0, 1];

interface FillingRun {
  readonly result: ReplicationResult;
  /** Moment at which the module first held as many balls as it can, Infinity if it never did. */
  readonly full: number;
}

/** Thrown by an onlooker who has seen what he wanted to see: the rest of the show is not played. */
class SeenEnough extends Error {}

/** Seconds until the module first holds as many balls as it can. */
function secondsToFull(spec: LoopSpec, total: number, replication: number): number {
  let full = Infinity;
  const observe = (view: LoopView): void => {
    if (view.level(0) + view.held(0) < total) return;
    full = view.now;
    throw new SeenEnough();
  };
  try {
    simulate(spec, { seed: SEED, replication, observe });
  } catch (error) {
    if (!(error instanceof SeenEnough)) throw error;
  }
  return full;
}

function fill(spec: LoopSpec, plan: MeasurePlan, total: number, replication: number): FillingRun {
  let full = Infinity;
  const observe = (view: LoopView): void => {
    if (full === Infinity && view.level(0) + view.held(0) === total) full = view.now;
  };
  return { result: simulate(spec, { seed: SEED, replication, plan, observe }), full };
}

/** Balls in basket and mechanism at the end of the show. */
function inside({ series }: ReplicationResult): number {
  const lastSlice = series.places.length - PLACES.length;
  const { places } = series;
  return (
    at(places, lastSlice + PLACES.indexOf('baskets')) + at(places, lastSlice + PLACES.indexOf('mechanisms'))
  );
}

/** A machine that begins empty: when it is first full, when it first spills, where it stands after a while. */
function filling(id: string): CheckGroup[] {
  const times = listParam(id, 't');
  const total = param(id, 'K');
  const module = machine(exponential(1 / param(id, 'mu')), { basket: basketOfModule(total) });
  const feed = { every: poisson(param(id, 'lam')) };
  const last = Math.max(...times);
  // Long enough that the chance of never having been full is below 1e-8.
  const long = 3000;
  const patient = chain(feed, [module], fromTheStart(long));
  const spec = chain(feed, [module], fromTheStart(last));
  const plan = { sliceEnds: [last], lapBinSeconds: last, lapBins: 1 };
  const within = times.flatMap((time): Metric<FillingRun>[] => [
    {
      quantity: `P(module full within ${time.toFixed(1)} s | 0 at t=0)`,
      read: ({ full }) => yes(full <= time),
    },
    {
      quantity: `P(at least one spill within ${time.toFixed(1)} s | 0 at t=0)`,
      read: ({ result }) => yes(result.firstSpill <= time),
    },
  ]);
  const meanFull = exact(id, 'mean time to full from 0');
  return [
    sampled(id, {
      replications: partOf(6000, WHOLE),
      seconds: last,
      run: (replication) => fill(spec, plan, total, replication),
      metrics: [
        ...within,
        { quantity: `E[N(${last.toFixed(1)})]`, read: ({ result }) => [inside(result), 1] },
        { quantity: `expected spills in (0,${last.toFixed(1)})`, read: ({ result }) => [spills(result), 1] },
        { quantity: `P(N(${last.toFixed(1)})=0)`, read: ({ result }) => yes(inside(result) === 0) },
      ],
    }),
    sampled(id, {
      replications: partOf(4000, WHOLE),
      seconds: long,
      run: (replication) => secondsToFull(patient, total, replication),
      metrics: [
        { quantity: 'mean time to full from 0', read: (full) => [full, 1] },
        {
          quantity: 'sd of that time',
          expected: exact(id, 'sd of that time') ** 2,
          read: (full) => [(full - meanFull) ** 2, 1],
          remark: squareAbout(meanFull),
        },
      ],
    }),
  ];
}

/** Spills in the first slice. */
function duringStop({ series }: ReplicationResult): number {
  return at(series.spills, 0);
}

/** Balls at random into a basket in front of a machine that does not work. */
function standing(id: string): CheckGroup {
  const stop = param(id, 'd');
  const headroom = param(id, 'headroom');
  // Long enough that the chance of no spill by then is below 1e-12, if the machine never works again.
  const seconds = 140;
  const module = machine(constant(1), { basket: basket(headroom), drive: onDemand(headroom + 1) });
  const spec = chain({ every: poisson(param(id, 'lam')) }, [module], fromTheStart(seconds));
  const plan = { sliceEnds: [stop, seconds], lapBinSeconds: seconds, lapBins: 1 };
  const meanSpills = exact(id, 'expected spills during stop');
  const meanFirst = exact(id, 'mean time to first spill if the stop never ends');
  return sampled(id, {
    replications: partOf(20_000),
    seconds,
    run: (replication) => run(spec, replication, plan),
    metrics: [
      { quantity: 'P(no spill)', read: (result) => yes(result.firstSpill > stop) },
      { quantity: 'P(at least one spill)', read: (result) => yes(duringStop(result) > 0) },
      { quantity: 'expected spills during stop', read: (result) => [duringStop(result), 1] },
      {
        quantity: 'sd of spills during stop',
        expected: exact(id, 'sd of spills during stop') ** 2,
        read: (result) => [(duringStop(result) - meanSpills) ** 2, 1],
        remark: squareAbout(meanSpills),
      },
      {
        quantity: 'mean time to first spill if the stop never ends',
        read: (result) => [result.firstSpill, 1],
      },
      {
        quantity: 'sd of that time',
        expected: exact(id, 'sd of that time') ** 2,
        read: (result) => [(result.firstSpill - meanFirst) ** 2, 1],
        remark: squareAbout(meanFirst),
      },
    ],
  });
}

export const section8: readonly CheckGroup[] = [
  ...filling('TRANS-MM1K'),
  standing('TRANS-POISSON'),
  ...whatIfs('TRANS-WHATIF'),
  standing('TRANS-POISSON-h'),
  ...whatIf('TRANS-WHATIF-h'),
];
