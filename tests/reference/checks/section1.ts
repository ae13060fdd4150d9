import type { DistributionSpec } from '../../../packages/sim-core/src/distributions/index.js';
import type { LoopSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { type CheckGroup, type Metric, sampled, setAside } from '../check.js';
import { FOR_RARE, partOf } from '../length.js';
import {
  content,
  idle,
  level,
  longLaps,
  meanLap,
  meanOf,
  meanSquareAbout,
  run,
  shareOf,
  spills,
  splitLapsAt,
  throughput,
  timeAverage,
  timeShare,
  watch,
  type WatchedRun,
} from '../measure.js';
import { exact, listParam, param } from '../published.js';
import {
  basketOfModule,
  chain,
  constant,
  erlang,
  exponential,
  lognormal,
  machine,
  poisson,
  steady,
} from '../specs.js';
import { beyond, squareAbout } from '../remarks.js';
import { postOffices } from './postOffices.js';

/* Single machines: how long balls wait in the basket, how many there are, how many spill. */

const UTILISATION = 'offered rate times mean cycle: an input in another form';

/** A machine with an endless basket: gaps between arrivals, its cycle, and how long to look. */
function endless(every: DistributionSpec, cycle: DistributionSpec, seconds: number): LoopSpec {
  return chain({ every }, [machine(cycle)], steady(2000, seconds));
}

const WAIT: Metric<WatchedRun> = { quantity: 'Wq', read: ({ trace }) => meanOf(trace.waits) };
const SOJOURN: Metric<WatchedRun> = { quantity: 'W', read: ({ result }) => meanLap(result) };

function dm1(id: string): CheckGroup[] {
  const seconds = partOf(15_000);
  const spec = endless(constant(param(id, 'T')), exponential(1 / param(id, 'mu')), seconds);
  const p90 = exact(id, '90th pct sojourn');
  return [
    setAside(id, 'formula', UTILISATION, ['rho']),
    setAside(id, 'formula', 'root of an equation; checked as P(wait>0), which it equals', ['sigma']),
    sampled(id, {
      replications: 100,
      seconds,
      run: (replication) => watch(spec, replication, splitLapsAt(spec, p90)),
      metrics: [
        WAIT,
        SOJOURN,
        { quantity: 'Lq (time avg)', read: ({ result }) => level(result) },
        { quantity: 'L (time avg)', read: ({ result }) => content(result) },
        { quantity: 'P(wait>0)', read: ({ trace }) => shareOf(trace.waits, (wait) => wait > 0) },
        { quantity: 'mean number found by arrival', read: ({ trace }) => meanOf(trace.found) },
        {
          quantity: '90th pct sojourn',
          expected: 0.1,
          read: ({ result }) => longLaps(result),
          remark: beyond(p90, 0.1),
        },
      ],
    }),
  ];
}

function mm1(id: string): CheckGroup[] {
  const seconds = partOf(30_000);
  const spec = endless(poisson(param(id, 'lam')), exponential(1 / param(id, 'mu')), seconds);
  const meanSojourn = exact(id, 'W (sojourn mean = sd)');
  const sojournP90 = exact(id, '90th pct of sojourn');
  const waitP90 = exact(id, '90th pct of basket wait');
  const meanContent = exact(id, 'L (in system)');
  return [
    setAside(id, 'formula', UTILISATION, ['rho']),
    sampled(id, {
      replications: 100,
      seconds,
      run: (replication) => watch(spec, replication, splitLapsAt(spec, sojournP90)),
      metrics: [
        WAIT,
        { quantity: 'L (in system)', read: ({ result }) => content(result) },
        { quantity: 'Lq (in basket)', read: ({ result }) => level(result) },
        { quantity: 'W (sojourn mean = sd)', read: ({ result }) => meanLap(result), remark: 'mean' },
        {
          quantity: 'W (sojourn mean = sd)',
          expected: meanSojourn ** 2,
          read: ({ trace }) => meanSquareAbout(trace.sojourns, meanSojourn),
          remark: squareAbout(meanSojourn),
        },
        { quantity: 'P(wait=0)', read: ({ trace }) => shareOf(trace.waits, (wait) => wait === 0) },
        {
          quantity: 'P(sojourn > 2W)',
          read: ({ trace }) => shareOf(trace.sojourns, (sojourn) => sojourn > 2 * meanSojourn),
        },
        {
          quantity: '90th pct of sojourn',
          expected: 0.1,
          read: ({ result }) => longLaps(result),
          remark: beyond(sojournP90, 0.1),
        },
        {
          quantity: '90th pct of basket wait',
          expected: 0.1,
          read: ({ trace }) => shareOf(trace.waits, (wait) => wait > waitP90),
          remark: beyond(waitP90, 0.1),
        },
        { quantity: 'P(N>=10)', read: ({ trace }) => timeShare(trace.timeAt, (balls) => balls >= 10) },
        {
          quantity: 'sd of N (time)',
          expected: exact(id, 'sd of N (time)') ** 2,
          read: ({ trace }) => timeAverage(trace.timeAt, (balls) => (balls - meanContent) ** 2),
          remark: squareAbout(meanContent),
        },
      ],
    }),
  ];
}

function probability(balls: number): Metric<WatchedRun> {
  return {
    quantity: `P(N=${balls})`,
    read: ({ trace }) => timeShare(trace.timeAt, (state) => state === balls),
  };
}

/** Poisson arrivals, any cycle: what the cases of this kind have in common. */
function mg1(
  id: string,
  cycle: DistributionSpec,
  seconds: number,
  more: readonly Metric<WatchedRun>[],
): CheckGroup[] {
  const spec = endless(poisson(param(id, 'lam')), cycle, seconds);
  const meanWait = exact(id, 'Wq');
  return [
    setAside(id, 'formula', UTILISATION, ['rho']),
    sampled(id, {
      replications: 100,
      seconds,
      run: (replication) => watch(spec, replication),
      metrics: [
        WAIT,
        { quantity: 'Lq', read: ({ result }) => level(result) },
        { quantity: 'L', read: ({ result }) => content(result) },
        {
          quantity: 'sd of Wq',
          expected: exact(id, 'sd of Wq') ** 2,
          read: ({ trace }) => meanSquareAbout(trace.waits, meanWait),
          remark: squareAbout(meanWait),
        },
        probability(0),
        probability(1),
        probability(2),
        ...more,
      ],
    }),
  ];
}

function md1(id: string): CheckGroup[] {
  const cycle = param(id, 'D');
  const meanContent = exact(id, 'L');
  return mg1(id, constant(cycle), partOf(20_000), [
    probability(3),
    { quantity: 'P(Wq<=D)', read: ({ trace }) => shareOf(trace.waits, (wait) => wait <= cycle) },
    { quantity: 'P(Wq<=3D)', read: ({ trace }) => shareOf(trace.waits, (wait) => wait <= 3 * cycle) },
    {
      quantity: 'sd of N (time)',
      expected: exact(id, 'sd of N (time)') ** 2,
      read: ({ trace }) => timeAverage(trace.timeAt, (balls) => (balls - meanContent) ** 2),
      remark: squareAbout(meanContent),
    },
  ]);
}

function md1k(id: string): CheckGroup[] {
  const seconds = partOf(20_000);
  return listParam(id, 'K_total').map((total) => {
    const module = machine(constant(param(id, 'D')), { basket: basketOfModule(total) });
    const spec = chain({ every: poisson(param(id, 'lam')) }, [module], steady(1000, seconds));
    return sampled(id, {
      replications: 100,
      seconds,
      run: (replication) => run(spec, replication),
      metrics: [
        { quantity: `K=${total}: P(loss)`, read: (result) => [spills(result), result.entered] },
        { quantity: `K=${total}: L`, read: content },
        { quantity: `K=${total}: throughput`, read: throughput },
      ],
    });
  });
}

function mm1k(id: string): CheckGroup[] {
  const seconds = partOf(20_000);
  const module = machine(exponential(1 / param(id, 'mu')), { basket: basketOfModule(param(id, 'K_total')) });
  const spec = chain({ every: poisson(param(id, 'lam')) }, [module], steady(1000, seconds));
  return [
    setAside(id, 'formula', 'a limit over an endless run; in any finite time the variance is another', [
      'asymptotic variance rate of spill count',
    ]),
    sampled(id, {
      replications: 100,
      seconds,
      run: (replication) => run(spec, replication),
      metrics: [
        { quantity: 'P(full)=fraction spilled', read: (result) => [spills(result), result.entered] },
        { quantity: 'spill rate', read: (result) => [spills(result), result.measuredSeconds] },
        { quantity: 'throughput', read: throughput },
        { quantity: 'L', read: content },
        { quantity: 'W of accepted', read: meanLap },
        { quantity: 'P(idle)', read: (result) => idle(result) },
      ],
    }),
  ];
}

export const section1: readonly CheckGroup[] = [
  ...dm1('DM1-a'),
  ...md1('MD1-a'),
  ...md1k('MD1K-a'),
  ...mg1('MG1-E3', erlang(param('MG1-E3', 'mean'), param('MG1-E3', 'k')), partOf(15_000), [SOJOURN]),
  ...mg1('MG1-LN', lognormal(param('MG1-LN', 'mean'), param('MG1-LN', 'cv')), partOf(40_000, FOR_RARE), [
    SOJOURN,
  ]),
  ...mm1('MM1-a'),
  ...mm1k('MM1K-a'),
  ...postOffices('MMc-a'),
  ...md1k('MD1K-h'),
  ...mg1('MG1-LN-h', lognormal(param('MG1-LN-h', 'mean'), param('MG1-LN-h', 'cv')), partOf(30_000), [
    SOJOURN,
  ]),
  ...mm1('MM1-h'),
  ...mm1k('MM1K-h'),
  ...postOffices('MMc-h'),
];
