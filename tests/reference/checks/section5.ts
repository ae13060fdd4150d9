import type { DistributionSpec } from '../../../packages/sim-core/src/distributions/index.js';
import type { StopTriggerSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { type CheckGroup, sampled, setAside } from '../check.js';
import {
  content,
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
  watch,
} from '../measure.js';
import { exact, param } from '../published.js';
import {
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

const ON_THE_CLOCK = 'stops whose clock also runs while the machine waits for balls';
const BLOCKING = 'a full basket that holds up the machine before it';

const running = (mean: number): StopTriggerSpec => ({ kind: 'running', time: exponential(mean) });

/** Clock of running time, or a chance in each cycle; fed too slowly to be always busy, or never starved. */
function availability(id: string): CheckGroup[] {
  const seconds = 50_000;
  const replications = 100;
  const show = steady(2000, seconds);
  const cycle = constant(param(id, 'cycle'));
  const feed = { every: constant(param(id, 'feed_interval')) };
  const wear = freesItself(running(param(id, 'MTBF')), exponential(param(id, 'MTTR')));
  const jam = freesItself(
    { kind: 'per_cycle', probability: param(id, 'p_jam') },
    exponential(param(id, 'MTTR_jam')),
  );
  const worn = chain(feed, [machine(cycle, { stops: [wear] })], show);
  const jammed = chain(feed, [machine(cycle, { stops: [jam] })], show);
  const turning = chain(feed, [machine(cycle, { drive: CONTINUOUS, stops: [wear] })], show);
  const wornSaturated = neverStarved(machine(cycle, { stops: [wear] }), show);
  const jammedSaturated = neverStarved(machine(cycle, { stops: [jam] }), show);
  return [
    setAside(id, 'later', ON_THE_CLOCK, ['TD: availability', 'TD: stops per hour', 'TD: down fraction']),
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
  const seconds = 30_000;
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

function stopsWhileWorking(id: string): CheckGroup {
  const seconds = 50_000;
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
  setAside('UNREL-2M-EXP', 'later', BLOCKING),
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
  setAside('UNREL-MM1-TD', 'later', ON_THE_CLOCK),
  setAside('UNREL-VAC', 'not expressible', 'no mechanism here goes away because its basket is empty'),
  ...gaver(
    'UNREL-GAVER-h',
    erlang(param('UNREL-GAVER-h', 'S_mean'), 2),
    lognormal(param('UNREL-GAVER-h', 'repair_mean'), param('UNREL-GAVER-h', 'repair_cv')),
  ),
  setAside('UNREL-MM1-TD-h', 'later', ON_THE_CLOCK),
];
