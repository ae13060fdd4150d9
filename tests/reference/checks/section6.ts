import type { DistributionSpec } from '../../../packages/sim-core/src/distributions/index.js';
import { type CheckGroup, type Metric, sampled } from '../check.js';
import { FOR_VERY_RARE, partOf } from '../length.js';
import {
  type CrewRun,
  meanOf,
  type Reading,
  shareOf,
  stopsPerHour,
  sum,
  timeShare,
  watchCrew,
} from '../measure.js';
import { exactList, listParam, param, quantitiesOf } from '../published.js';
import { constant, exponential, repairShop, steady } from '../specs.js';

/* Machines that run whenever they are up, and a crew that is too small for all of them at once. */

/** What the simulator reports of a repair shop, and what is seen by watching it. */
const downAverage = ({ result }: CrewRun): Reading => [sum(result.modules.stoppedShare), 1];
const waitingAverage = ({ result }: CrewRun): Reading => [result.crew.waitingJobs, 1];
const crewUse = ({ result }: CrewRun): Reading => [result.crew.busySeconds, result.crew.dutySeconds];
const crewIdle = ({ result }: CrewRun): Reading => [
  result.crew.dutySeconds - result.crew.busySeconds,
  result.crew.dutySeconds,
];
const meanWait = ({ crew }: CrewRun): Reading => meanOf(crew.waits);
const mustWait = ({ crew }: CrewRun): Reading => shareOf(crew.waits, (wait) => wait > 0);
const downTime = ({ result }: CrewRun): Reading => [
  result.crew.clearMeanSeconds * result.crew.clearCount,
  result.crew.clearCount,
];
const probability =
  (down: number) =>
  ({ crew }: CrewRun): Reading =>
    timeShare(crew.timeDown, (state) => state === down);
const efficiency =
  (machines: number) =>
  ({ result }: CrewRun): Reading => [machines - result.crew.waitingJobs, machines];

/** Machines, their running time until a stop, the crew, and about how many stops of all machines to look at. */
interface Shop {
  readonly machines: number;
  readonly up: number;
  readonly repair: DistributionSpec;
  readonly repairMean: number;
  readonly minders: number;
  readonly stops: number;
}

/** A hundred replications of a shop, together about as long as the wanted number of stops takes. */
function shop(id: string, wanted: Shop, metrics: readonly Metric<CrewRun>[]): CheckGroup {
  const { machines, up, repair, repairMean, minders, stops } = wanted;
  const replications = 100;
  const seconds = Math.round((stops / replications / machines) * (up + repairMean));
  const warmUpSeconds = 20 * (up + repairMean);
  const show = steady(warmUpSeconds, seconds);
  const spec = repairShop({ machines, up: exponential(up), repair, minders, cycleSeconds: up, show });
  return sampled(id, { replications, seconds, run: (replication) => watchCrew(spec, replication), metrics });
}

/** Exponential repairs; a page of a finite queueing table for each size of the crew. */
function crewTable(id: string): CheckGroup[] {
  const machines = param(id, 'N');
  const repairMean = param(id, 'MTTR');
  return listParam(id, 'c').map((minders) => {
    const wanted = {
      machines,
      up: param(id, 'MTBF'),
      repair: exponential(repairMean),
      repairMean,
      minders,
      stops: partOf(200_000),
    };
    const name = (quantity: string): string => `c=${minders}: ${quantity}`;
    return shop(id, wanted, [
      { quantity: name('expected machines down (waiting+in repair)'), read: downAverage },
      { quantity: name('expected waiting for crew Lq'), read: waitingAverage },
      { quantity: name('crew utilisation (each)'), read: crewUse },
      { quantity: name('stops per hour (all machines)'), read: ({ result }) => stopsPerHour(result) },
      { quantity: name('mean wait for crew'), read: meanWait },
      { quantity: name('mean down time per stop'), read: downTime },
      {
        quantity: name('availability per machine'),
        read: (run) => [machines - downAverage(run)[0], machines],
      },
      { quantity: name('P(stop must wait) D'), read: mustWait },
      { quantity: name('Peck-Hazelwood efficiency F=(N-Lq)/N'), read: efficiency(machines) },
      { quantity: name('P(all up)'), read: probability(0) },
    ]);
  });
}

/** One minder, repairs of constant length. */
function ashcroft(id: string): CheckGroup[] {
  const repairMean = param(id, 'repair');
  return listParam(id, 'N').map((machines) => {
    const wanted = {
      machines,
      up: param(id, 'MTBF'),
      repair: constant(repairMean),
      repairMean,
      minders: param(id, 'c'),
      stops: partOf(100_000),
    };
    const name = (quantity: string): string => `N=${machines}: ${quantity}`;
    return shop(id, wanted, [
      { quantity: name('P(crew idle)'), read: crewIdle },
      {
        quantity: name('expected machines running (Ashcroft number)'),
        read: (run) => [machines - downAverage(run)[0], 1],
      },
      { quantity: name('expected down'), read: downAverage },
      { quantity: name('stops per hour'), read: ({ result }) => stopsPerHour(result) },
      { quantity: name('mean wait for crew'), read: meanWait },
    ]);
  });
}

function feller(id: string): CheckGroup[] {
  const up = 1 / param(id, 'lam');
  const repairMean = 1 / param(id, 'mu');
  const common = { up, repair: exponential(repairMean), repairMean };
  const list = 'm=6 r=1: p1..p6';
  return [
    shop(id, { ...common, machines: 6, minders: 1, stops: partOf(2_000_000, FOR_VERY_RARE) }, [
      { quantity: 'm=6 r=1: p0', read: probability(0) },
      { quantity: 'm=6 r=1: mean waiting in line', read: waitingAverage },
      ...exactList(id, list).map((expected, i) => ({
        quantity: list,
        expected,
        read: probability(i + 1),
        remark: `p${i + 1}`,
      })),
      { quantity: 'm=6 r=1: waiting per machine (coefficient of loss)', read: perMachine(6) },
    ]),
    shop(id, { ...common, machines: 20, minders: 3, stops: partOf(1_000_000) }, [
      { quantity: 'm=20 r=3: p0', read: probability(0) },
      { quantity: 'm=20 r=3: mean waiting in line', read: waitingAverage },
      { quantity: 'm=20 r=3: loss per machine', read: perMachine(20) },
      { quantity: 'm=20 r=3: mean idle repairmen/3', read: crewIdle },
    ]),
  ];
}

function perMachine(machines: number): (run: CrewRun) => Reading {
  return (run) => [waitingAverage(run)[0], machines];
}

/** One line of the table for each service factor X = repair / (repair + up) and number of channels M. */
function peckHazelwood(id: string): CheckGroup[] {
  const machines = param(id, 'N');
  const up = 1000;
  return quantitiesOf(id)
    .filter((quantity) => quantity.endsWith(': D'))
    .map((quantity) => {
      const line = quantity.slice(0, -': D'.length);
      const [, x = '', m = ''] = /X=([\d.]+) M=(\d+)$/.exec(line) ?? [];
      const factor = Number(x);
      const repairMean = (up * factor) / (1 - factor);
      const wanted = {
        machines,
        up,
        repair: exponential(repairMean),
        repairMean,
        minders: Number(m),
        stops: partOf(200_000),
      };
      return shop(id, wanted, [
        { quantity: `${line}: D`, read: mustWait },
        { quantity: `${line}: F`, read: efficiency(machines) },
      ]);
    });
}

export const section6: readonly CheckGroup[] = [
  ...crewTable('CREW-10'),
  ...crewTable('CREW-50'),
  ...ashcroft('CREW-ASHCROFT'),
  ...feller('CREW-FELLER'),
  ...peckHazelwood('CREW-PH5'),
  ...crewTable('CREW-13-h'),
  ...ashcroft('CREW-ASHCROFT-h'),
];
