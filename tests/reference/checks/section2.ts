import { type CheckGroup, exactly, sampled, setAside } from '../check.js';
import { FOR_RARE, partOf, SHORT, WHOLE } from '../length.js';
import {
  at,
  busy,
  content,
  idle,
  level,
  meanLap,
  meanOf,
  meanSquareAbout,
  run,
  shareOf,
  spills,
  sum,
  timeShare,
  watch,
} from '../measure.js';
import { exact, listParam, param, quantitiesOf } from '../published.js';
import { squareAbout } from '../remarks.js';
import {
  basket,
  chain,
  constant,
  CONTINUOUS,
  exponential,
  fromTheStart,
  machine,
  onDemand,
  poisson,
  steady,
} from '../specs.js';

/* Balls that come in batches, machines that take them in batches. */

/**
 * A dump of balls every T seconds onto a machine that takes one each second.
 *
 * The published cases let a ball that is finished at the instant of a dump go before it; here deliveries go before ends
 * of cycles. A cycle shorter by a billionth gives the published order, and in all batches together it gains less than
 * 3e-5 s, far too little to finish a ball more.
 */
function batchDet(id: string): CheckGroup[] {
  const batch = param(id, 'batch');
  const batches = param(id, 'n_batches');
  const capacities = listParam(id, 'C_list');
  const quantities = quantitiesOf(id);
  return [
    setAside(
      id,
      'not expressible',
      'a batch that arrives is put into the basket as a whole before the mechanism reaches for a ball: convention A',
      quantities.filter((name) => name.includes('conv B')),
    ),
    ...listParam(id, 'T_list').map((every, i) => {
      const capacity = at(capacities, i);
      const title = `T=${every.toFixed(1)} C=${capacity} conv A`;
      const seconds = (batches - 0.5) * every;
      const module = machine(constant(param(id, 'service') - 1e-9), { basket: basket(capacity) });
      const spec = chain({ every: constant(every), balls: batch, first: 0 }, [module], fromTheStart(seconds));
      return exactly(id, {
        seconds,
        quantities: quantities.filter((name) => name.startsWith(title)),
        values: () => {
          const result = run(spec, 0);
          return [at(result.modules.levelPeak, 0), spills(result), Math.round(result.firstSpill / every)];
        },
        remark:
          'cycle shorter by 1e-9 s: the published order of a dump and an end of cycle at the same instant',
      });
    }),
  ];
}

function batchArrivals(id: string): CheckGroup[] {
  const seconds = partOf(50_000);
  const module = machine(exponential(1 / param(id, 'mu')));
  const every = poisson(param(id, 'batch_rate'));
  const spec = chain({ every, balls: param(id, 'batch') }, [module], steady(5000, seconds));
  return [
    setAside(id, 'formula', 'offered rate times mean cycle: an input in another form', ['rho']),
    sampled(id, {
      replications: 100,
      seconds,
      run: (replication) => watch(spec, replication),
      metrics: [
        { quantity: 'L', read: ({ result }) => content(result) },
        { quantity: 'W', read: ({ result }) => meanLap(result) },
        { quantity: 'Lq', read: ({ result }) => level(result) },
        { quantity: 'Wq', read: ({ trace }) => meanOf(trace.waits) },
        { quantity: 'mean wait of first ball of a batch', read: ({ trace }) => meanOf(trace.firstWaits) },
        { quantity: 'P(empty)', read: ({ result }) => idle(result) },
      ],
    }),
  ];
}

/** Fixed interval, up to a batch each time, also when nobody waits: the continuous drive. */
function bailey(id: string, part: number): CheckGroup[] {
  const seconds = partOf(30_000, part);
  const batch = param(id, 'b');
  const module = machine(constant(param(id, 'T')), { batch, drive: CONTINUOUS });
  const spec = chain({ every: poisson(param(id, 'lam')) }, [module], steady(2000, seconds));
  const meanBefore = exact(id, 'mean queue just before take');
  return [
    sampled(id, {
      replications: 100,
      seconds,
      run: (replication) => watch(spec, replication),
      metrics: [
        { quantity: 'mean queue just before take', read: ({ trace }) => meanOf(trace.before) },
        {
          quantity: 'sd of queue just before take',
          expected: exact(id, 'sd of queue just before take') ** 2,
          read: ({ trace }) => meanSquareAbout(trace.before, meanBefore),
          remark: squareAbout(meanBefore),
        },
        {
          quantity: 'mean queue just after take',
          read: ({ trace }) => [sum(trace.before) - sum(trace.picked), trace.before.length],
        },
        { quantity: 'time-average basket content Lq', read: ({ result }) => level(result) },
        { quantity: 'mean wait Wq', read: ({ trace }) => meanOf(trace.waits) },
        { quantity: 'mean sojourn incl. one cycle', read: ({ result }) => meanLap(result) },
        { quantity: 'P(cycle takes 0)', read: ({ result }) => idle(result) },
        {
          quantity: `P(cycle takes ${batch})`,
          read: ({ trace }) => shareOf(trace.picked, (balls) => balls === batch),
        },
        { quantity: 'mean balls per cycle', read: ({ trace }) => meanOf(trace.picked) },
        {
          quantity: 'P(queue before take > 2s)',
          read: ({ trace }) => shareOf(trace.before, (balls) => balls > 2 * batch),
          remark: 's is the batch',
        },
      ],
    }),
  ];
}

/** Starts when at least a wait, takes up to b: the drive on demand. */
function generalBulk(id: string, part: number): CheckGroup[] {
  const seconds = partOf(50_000, part);
  const least = param(id, 'a');
  const batch = param(id, 'b');
  const module = machine(exponential(1 / param(id, 'mu')), { batch, drive: onDemand(least) });
  const spec = chain({ every: poisson(param(id, 'lam')) }, [module], steady(3000, seconds));
  return [
    setAside(id, 'formula', 'root of an equation: an intermediate of the computation', ['r (root)']),
    sampled(id, {
      replications: 100,
      seconds,
      run: (replication) => watch(spec, replication),
      metrics: [
        { quantity: 'Lq (waiting in basket)', read: ({ result }) => level(result) },
        { quantity: 'Wq', read: ({ trace }) => meanOf(trace.waits) },
        { quantity: 'W = Wq+1/mu', read: ({ result }) => meanLap(result) },
        { quantity: 'P(mechanism busy)', read: ({ result }) => busy(result) },
        {
          quantity: 'cycle rate',
          read: ({ trace, result }) => [trace.picked.length, result.measuredSeconds],
        },
        { quantity: 'mean balls per cycle', read: ({ trace }) => meanOf(trace.picked) },
        {
          quantity: `P(cycle takes exactly ${least})`,
          read: ({ trace }) => shareOf(trace.picked, (balls) => balls === least),
        },
        {
          quantity: `P(cycle takes exactly ${batch})`,
          read: ({ trace }) => shareOf(trace.picked, (balls) => balls === batch),
        },
        {
          quantity: 'P(basket empty & idle)',
          read: ({ trace }) => timeShare(trace.timeAt, (balls) => balls === 0),
        },
      ],
    }),
  ];
}

export const section2: readonly CheckGroup[] = [
  ...batchDet('BATCH-DET'),
  ...batchArrivals('BATCH-MX'),
  ...bailey('BULK-BAILEY', SHORT),
  ...generalBulk('BULK-MMab', SHORT),
  setAside(
    'CLOSED-BULK',
    'not expressible',
    'every ball of a batch has a travel time of its own there; here a batch travels together and none overtakes',
  ),
  ...bailey('BULK-BAILEY-h', FOR_RARE),
  ...generalBulk('BULK-MMab-h', WHOLE),
];
