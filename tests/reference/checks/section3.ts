import type { LoopSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { type CheckGroup, exactly, type Metric, sampled, setAside } from '../check.js';
import { partOf, SHORT, WHOLE } from '../length.js';
import {
  at,
  busy,
  idle,
  lapSquareAbout,
  longLaps,
  meanLap,
  moduleContent,
  type Reading,
  run,
  splitLapsAt,
  throughput,
} from '../measure.js';
import type { ReplicationResult } from '../../../packages/sim-core/src/model/index.js';
import { exact, listParam, param } from '../published.js';
import { beyond, squareAbout } from '../remarks.js';
import { chain, constant, exponential, loop, machine, poisson, steady } from '../specs.js';

/* Closed loops and open chains whose baskets never fill. */

/** Exponential machines in a ring; the travel of a lap in equal parts behind each of them, constant. */
function ring(id: string, warmUpSeconds: number, seconds: number): LoopSpec {
  const rates = listParam(id, 'mu');
  const travel = constant(param(id, 'travel_total') / rates.length);
  const modules = rates.map((rate, m) => machine(exponential(1 / rate), { id: `machine ${m}`, travel }));
  return loop(param(id, 'K'), modules, steady(warmUpSeconds, seconds));
}

const WHOLE_LOOP: readonly Metric<ReplicationResult>[] = [
  { quantity: 'throughput', read: throughput },
  { quantity: 'mean lap (loop) time', read: meanLap },
];

/** Balls on the run-outs: those in no basket and no mechanism. */
function travelling(result: ReplicationResult): Reading {
  const { levelMean } = result.modules;
  let waiting = 0;
  for (let m = 0; m < levelMean.length; m++) waiting += moduleContent(result, m)[0];
  return [result.onPath - waiting, 1];
}

/** The quantities of each station, and of the way between them if there is one. */
function stations(id: string): Metric<ReplicationResult>[] {
  const metrics = listParam(id, 'mu').flatMap((_, m): Metric<ReplicationResult>[] => [
    {
      quantity: `station ${m + 1}: mean number incl. in service`,
      read: (result) => moduleContent(result, m),
    },
    { quantity: `station ${m + 1}: utilisation per server`, read: (result) => busy(result, m) },
  ]);
  if (param(id, 'travel_total') > 0) metrics.push({ quantity: 'mean number travelling', read: travelling });
  return metrics;
}

function unequal(id: string, part: number): CheckGroup {
  const seconds = partOf(8000, part);
  const spec = ring(id, 1000, seconds);
  return sampled(id, {
    replications: 100,
    seconds,
    run: (replication) => run(spec, replication),
    metrics: [...WHOLE_LOOP, ...stations(id)],
  });
}

/** All machines alike: the lap time has a known distribution. */
function balanced(id: string): CheckGroup[] {
  const seconds = partOf(6000);
  const replications = 100;
  const spec = ring(id, 2000, seconds);
  const mean = exact(id, 'mean lap (loop) time');
  const sd = 'lap time sd (Erlang(K+N-1,mu))';
  const quantiles = [
    ['lap time 5th pct', 0.95],
    ['lap time median', 0.5],
    ['lap time 95th pct', 0.05],
  ] as const;
  return [
    setAside(id, 'formula', 'the throughput again, from another formula', ['closed form mu K/(K+N-1)']),
    sampled(id, {
      replications,
      seconds,
      run: (replication) => run(spec, replication),
      metrics: [
        ...WHOLE_LOOP,
        { quantity: 'station 1: mean number incl. in service', read: (result) => moduleContent(result) },
        { quantity: 'station 1: utilisation per server', read: (result) => busy(result) },
        { quantity: 'P(station 1 empty)', read: (result) => idle(result) },
        {
          quantity: sd,
          expected: exact(id, sd) ** 2,
          read: (result) => lapSquareAbout(result, mean),
          remark: squareAbout(mean),
        },
      ],
    }),
    ...quantiles.map(([quantity, share]) => {
      const quantile = exact(id, quantity);
      return sampled(id, {
        replications,
        seconds,
        run: (replication) => run(spec, replication, splitLapsAt(spec, quantile)),
        metrics: [{ quantity, expected: share, read: longLaps, remark: beyond(quantile, share) }],
      });
    }),
  ];
}

/** Fifty machines alike: what is published for the first is read off all fifty. */
function fifty(id: string): CheckGroup {
  const seconds = partOf(4000);
  const spec = ring(id, 4000, seconds);
  const machines = listParam(id, 'mu').length;
  const remark = 'average over all machines, which are alike';
  const average = (read: (result: ReplicationResult, m: number) => Reading) => {
    return (result: ReplicationResult): Reading => {
      let total = 0;
      for (let m = 0; m < machines; m++) total += read(result, m)[0];
      return [total, machines];
    };
  };
  return sampled(id, {
    replications: 40,
    seconds,
    run: (replication) => run(spec, replication),
    metrics: [
      ...WHOLE_LOOP,
      { quantity: 'station 1: mean number incl. in service', read: average(moduleContent), remark },
      { quantity: 'station 1: utilisation per server', read: average(busy), remark },
      { quantity: 'mean number travelling', read: travelling },
    ],
  });
}

/**
 * Constant times: after a while the loop repeats itself. Measured over a whole number of the slowest machine's cycles
 * and of laps without waiting at once, and from a moment on at which nothing happens: all times in this case are
 * multiples of 0.05 s, so that no event falls on an edge.
 */
function deterministic(id: string): CheckGroup[] {
  const cycles = listParam(id, 'T');
  const travels = listParam(id, 'travel');
  return listParam(id, 'K').flatMap((balls) =>
    [0, 4.5].map((travel) => {
      const name = travel === 0 ? 'no travel' : 'travel 4.5 s';
      const modules = cycles.map((cycle, m) =>
        machine(constant(cycle), { id: `machine ${m}`, travel: constant(travel === 0 ? 0 : at(travels, m)) }),
      );
      const spec = loop(balls, modules, steady(630.02, 630));
      const quantities = [`K=${balls}, ${name}: throughput`];
      const values = (): number[] => {
        const { passes, measuredSeconds } = run(spec, 0);
        return [passes / measuredSeconds];
      };
      return exactly(id, { seconds: 630, quantities, values });
    }),
  );
}

function tandem(id: string): CheckGroup {
  const seconds = partOf(20_000, WHOLE);
  const ways = [...listParam(id, 'travel'), 0];
  const modules = listParam(id, 'mu').map((rate, m) =>
    machine(exponential(1 / rate), { id: `machine ${m}`, travel: constant(at(ways, m)) }),
  );
  const spec = chain({ every: poisson(param(id, 'lam')) }, modules, steady(2000, seconds));
  const mean = exact(id, 'mean end-to-end time');
  return sampled(id, {
    replications: 100,
    seconds,
    run: (replication) => run(spec, replication),
    metrics: [
      { quantity: 'mean end-to-end time', read: meanLap },
      {
        quantity: 'sd end-to-end time',
        expected: exact(id, 'sd end-to-end time') ** 2,
        read: (result) => lapSquareAbout(result, mean),
        remark: squareAbout(mean),
      },
      { quantity: 'station 1: L', read: (result) => moduleContent(result, 0) },
      { quantity: 'station 2: L', read: (result) => moduleContent(result, 1) },
      { quantity: 'station 3: L', read: (result) => moduleContent(result, 2) },
    ],
  });
}

export const section3: readonly CheckGroup[] = [
  fifty('CLOSED-50'),
  ...balanced('CLOSED-BAL'),
  setAside('CLOSED-MS', 'not expressible', 'several mechanisms at one basket: a module here has one'),
  unequal('CLOSED-TRAVEL', WHOLE),
  unequal('CLOSED-UNB', SHORT),
  ...deterministic('DET-LOOP'),
  tandem('OPEN-TANDEM'),
  ...balanced('CLOSED-BAL-h'),
];
