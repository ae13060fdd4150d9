import type { DistributionSpec } from '../../../packages/sim-core/src/distributions/index.js';
import type { ReplicationResult } from '../../../packages/sim-core/src/model/index.js';
import type { ModuleSpec, StopTriggerSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { type CheckGroup, sampled, setAside } from '../check.js';
import { partOf } from '../length.js';
import {
  at,
  content,
  heldUpShare,
  idleAndUp,
  level,
  meanLap,
  meanOf,
  meanSquareAbout,
  run,
  stoppedShare,
  stops,
  stopsPerHour,
  throughput,
  timeShare,
  watch,
} from '../measure.js';
import { exact, param } from '../published.js';
import {
  blockingLine,
  chain,
  constant,
  CONTINUOUS,
  erlang,
  exponential,
  freesItself,
  lognormal,
  machine,
  neverStarved,
  poisson,
  steady,
} from '../specs.js';

/* Machines that stop. */

/** Counts whether the machine works or waits. */
const clock = (mean: number): StopTriggerSpec => ({ kind: 'clock', time: exponential(mean) });

const running = (mean: number): StopTriggerSpec => ({ kind: 'running', time: exponential(mean) });

/** Clock of running time, or a chance in each cycle; fed too slowly to be always busy, or never starved. */
function availability(id: string): CheckGroup[] {
  const seconds = partOf(50_000);
  const replications = 100;
  const show = steady(2000, seconds);
  const cycle = constant(param(id, 'cycle'));
  const feed = { every: constant(param(id, 'feed_interval')) };
  const wear = freesItself(running(param(id, 'MTBF')), exponential(param(id, 'MTTR')));
  const jam = freesItself(
    { kind: 'per_cycle', probability: param(id, 'p_jam') },
    exponential(param(id, 'MTTR_jam')),
  );
  const ageing = freesItself(clock(param(id, 'MTBF')), exponential(param(id, 'MTTR')));
  const aged = chain(feed, [machine(cycle, { stops: [ageing] })], show);
  const worn = chain(feed, [machine(cycle, { stops: [wear] })], show);
  const jammed = chain(feed, [machine(cycle, { stops: [jam] })], show);
  const turning = chain(feed, [machine(cycle, { drive: CONTINUOUS, stops: [wear] })], show);
  const wornSaturated = neverStarved(machine(cycle, { stops: [wear] }), show);
  const jammedSaturated = neverStarved(machine(cycle, { stops: [jam] }), show);
  return [
    sampled(id, {
      replications,
      seconds,
      run: (replication) => run(aged, replication),
      metrics: [
        { quantity: 'TD: availability', read: (result) => [1 - stoppedShare(result)[0], 1] },
        { quantity: 'TD: stops per hour', read: stopsPerHour },
        { quantity: 'TD: down fraction', read: (result) => stoppedShare(result) },
      ],
    }),
    sampled(id, {
      replications,
      seconds,
      run: (replication) => run(worn, replication),
      metrics: [
        {
          quantity: 'OD: working fraction',
          read: (result) => [1 - stoppedShare(result)[0] - idleAndUp(result)[0], 1],
        },
        { quantity: 'OD: stops per hour', read: stopsPerHour },
        { quantity: 'OD: down fraction', read: (result) => stoppedShare(result) },
        { quantity: 'OD: idle-and-up fraction', read: (result) => idleAndUp(result) },
      ],
    }),
    sampled(id, {
      replications,
      seconds,
      run: (replication) => run(jammed, replication),
      metrics: [
        { quantity: 'JAM: stops per hour', read: stopsPerHour },
        { quantity: 'JAM: down fraction', read: (result) => stoppedShare(result) },
      ],
    }),
    sampled(id, {
      replications,
      seconds,
      run: (replication) => run(wornSaturated, replication),
      metrics: [
        { quantity: 'SAT, OD or TD: throughput', read: throughput, remark: 'running-time clock (OD)' },
      ],
    }),
    sampled(id, {
      replications,
      seconds,
      run: (replication) => run(jammedSaturated, replication),
      metrics: [{ quantity: 'SAT JAM: throughput', read: throughput }],
    }),
    sampled(id, {
      replications,
      seconds,
      run: (replication) => run(turning, replication),
      metrics: [
        {
          quantity: 'continuous drive (cycles also when empty), running-time MTBF: stops per hour',
          read: stopsPerHour,
        },
      ],
    }),
  ];
}

/** How long a ball is in a mechanism that stops while it works and goes on where it was. */
function gaver(id: string, service: DistributionSpec, repair: DistributionSpec): CheckGroup[] {
  const seconds = partOf(30_000);
  const stop = freesItself(running(1 / param(id, 'xi')), repair);
  const spec = neverStarved(machine(service, { stops: [stop] }), steady(100, seconds));
  const mean = exact(id, 'E[C]');
  return [
    setAside(id, 'formula', 'the root of Var[C], and its ratio to the square of E[C]', ['sd[C]', 'cv^2[C]']),
    sampled(id, {
      replications: 100,
      seconds,
      run: (replication) => watch(spec, replication),
      metrics: [
        { quantity: 'E[C]', read: ({ trace }) => meanOf(trace.completions) },
        {
          quantity: 'Var[C]',
          read: ({ trace }) => meanSquareAbout(trace.completions, mean),
          remark: `mean square about the published mean ${mean}, unbiased`,
        },
        { quantity: 'mean stops per ball', read: ({ result }) => [stops(result), result.passes] },
        { quantity: 'max throughput (never starved)', read: ({ result }) => throughput(result) },
      ],
    }),
  ];
}

/** Two machines with places between them, both of which stop while they work. */
function twoMachines(id: string): CheckGroup {
  const seconds = partOf(40_000);
  const stop = (p: string, r: string): Partial<ModuleSpec> => ({
    stops: [freesItself(running(1 / param(id, p)), exponential(1 / param(id, r)))],
  });
  // A part counts from the end of machine 1 to the end of machine 2: one held up in 1, those between, one in 2.
  const spaces = param(id, 'N') - 2;
  const line = blockingLine(
    [exponential(1 / param(id, 'mu1')), exponential(1 / param(id, 'mu2'))],
    spaces,
    steady(3000, seconds),
  );
  const [first, second] = line.modules;
  if (first === undefined || second === undefined) throw new Error('a line of two has two machines');
  const spec = {
    ...line,
    modules: [
      { ...first, ...stop('p1', 'r1') },
      { ...second, ...stop('p2', 'r2') },
    ],
  };
  const starved = (result: ReplicationResult): number => idleAndUp(result, 1)[0];
  const remark = 'blocking after service with N - 2 places between, which is the same process';
  return sampled(id, {
    replications: 100,
    seconds,
    run: (replication) => run(spec, replication),
    metrics: [
      { quantity: 'throughput', read: throughput, remark },
      {
        quantity: 'mean n',
        read: (result) => [level(result, 1)[0] + 1 - starved(result) + heldUpShare(result)[0], 1],
        remark,
      },
      { quantity: 'P(machine 1 blocked)', read: (result) => heldUpShare(result), remark },
      { quantity: 'P(machine 2 starved)', read: (result) => [starved(result), 1], remark },
      { quantity: 'P(machine 1 down)', read: (result) => stoppedShare(result), remark },
      {
        quantity: 'stops of machine 1 per hour',
        read: (result) => [at(result.modules.stops, 0), result.measuredSeconds / 3600],
        remark,
      },
    ],
  });
}

/** Stops whose clock counts all the time in which the machine is up. */
function stopsOnTheClock(id: string): CheckGroup {
  const seconds = partOf(50_000);
  const stop = freesItself(clock(1 / param(id, 'xi')), exponential(1 / param(id, 'eta')));
  const module = machine(exponential(1 / param(id, 'mu')), { stops: [stop] });
  const spec = chain({ every: poisson(param(id, 'lam')) }, [module], steady(5000, seconds));
  return sampled(id, {
    replications: 150,
    seconds,
    run: (replication) => watch(spec, replication),
    metrics: [
      { quantity: 'L', read: ({ result }) => content(result) },
      { quantity: 'W', read: ({ result }) => meanLap(result) },
      { quantity: 'availability', read: ({ result }) => [1 - stoppedShare(result)[0], 1] },
      { quantity: 'P(down)', read: ({ result }) => stoppedShare(result) },
      { quantity: 'stops per hour', read: ({ result }) => stopsPerHour(result) },
      { quantity: 'P(empty)', read: ({ trace }) => timeShare(trace.timeAt, (balls) => balls === 0) },
      { quantity: 'P(empty and up)', read: ({ result }) => idleAndUp(result) },
    ],
  });
}

function stopsWhileWorking(id: string): CheckGroup {
  const seconds = partOf(50_000);
  const stop = freesItself(running(1 / param(id, 'xi')), exponential(1 / param(id, 'eta')));
  const module = machine(exponential(1 / param(id, 'mu')), { stops: [stop] });
  const spec = chain({ every: poisson(param(id, 'lam')) }, [module], steady(3000, seconds));
  return sampled(id, {
    replications: 100,
    seconds,
    run: (replication) => run(spec, replication),
    metrics: [
      { quantity: 'L', read: content },
      { quantity: 'W', read: meanLap },
      { quantity: 'Lq(excluding ball in mechanism)', read: (result) => level(result) },
      { quantity: 'P(down)', read: (result) => stoppedShare(result) },
      { quantity: 'stops per hour', read: stopsPerHour },
      { quantity: 'P(empty)', read: (result) => idleAndUp(result) },
    ],
  });
}

export const section5: readonly CheckGroup[] = [
  twoMachines('UNREL-2M-EXP'),
  setAside(
    'UNREL-2M-GEO',
    'not expressible',
    'holds for machines that work in step and are updated in a fixed order; UNREL-2M-EXP is the case without a beat',
  ),
  ...availability('UNREL-AVAIL'),
  ...gaver(
    'UNREL-GAVER',
    constant(param('UNREL-GAVER', 'S')),
    exponential(param('UNREL-GAVER', 'repair_mean')),
  ),
  stopsWhileWorking('UNREL-MM1-OD'),
  stopsOnTheClock('UNREL-MM1-TD'),
  setAside('UNREL-VAC', 'not expressible', 'no mechanism here goes away because its basket is empty'),
  ...gaver(
    'UNREL-GAVER-h',
    erlang(param('UNREL-GAVER-h', 'S_mean'), 2),
    lognormal(param('UNREL-GAVER-h', 'repair_mean'), param('UNREL-GAVER-h', 'repair_cv')),
  ),
  stopsOnTheClock('UNREL-MM1-TD-h'),
];
