import type { DistributionSpec } from '../../../packages/sim-core/src/distributions/index.js';
import type { LoopSpec, ModuleSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { type CheckGroup, type Metric, sampled, setAside } from '../check.js';
import { partOf } from '../length.js';
import { heldUpShare, idle, meanLap, moduleContent, run, throughput } from '../measure.js';
import type { ReplicationResult } from '../../../packages/sim-core/src/model/index.js';
import { exact, listParam, param, quantitiesOf } from '../published.js';
import {
  basketOfModule,
  blockingLine,
  erlang,
  exponential,
  holdsUp,
  loop,
  machine,
  steady,
} from '../specs.js';

/* Finite baskets that hold up the machine before them: blocking after service. */

const SECONDS = partOf(6000);
const REPLICATIONS = 100;
const SHOW = steady(500, SECONDS);

function throughputOf(id: string, quantity: string, spec: LoopSpec, remark = ''): CheckGroup {
  return sampled(id, {
    replications: REPLICATIONS,
    seconds: SECONDS,
    run: (replication) => run(spec, replication),
    metrics: [{ quantity, read: throughput, remark, bluntest: 0.005 }],
  });
}

/** "M=3 stations, B=1 spaces between: throughput" and the like. */
function lines(id: string, service: (quantity: string) => DistributionSpec): CheckGroup[] {
  return quantitiesOf(id).map((quantity) => {
    const [, stations = NaN, spaces = NaN] = (/^M=(\d).*B=(\d)/.exec(quantity) ?? []).map(Number);
    const machines = Array.from({ length: stations }, () => service(quantity));
    return throughputOf(id, quantity, blockingLine(machines, spaces, SHOW));
  });
}

/** A ring of machines that hold each other up; balls that find no basket to start in come from the box at the opening. */
function ring(rates: readonly number[], totals: readonly number[], balls: number): LoopSpec {
  const modules = rates.map((rate, m): ModuleSpec =>
    machine(exponential(1 / rate), { id: `machine ${m}`, basket: holdsUp(basketOfModule(totals[m] ?? NaN)) }),
  );
  const placed = modules.map(() => 0);
  for (let left = balls, m = 0; left > 0 && m < modules.length; m++) {
    placed[m] = Math.min(left, modules[m]?.basket.capacity ?? 0);
    left -= placed[m] ?? 0;
  }
  const start = placed.reduce((sum, some) => sum + some, 0);
  const spec = loop(0, modules, SHOW);
  return {
    ...spec,
    supply: { kind: 'charge', placed },
    crew: {
      ...spec.crew,
      topUp: {
        below: balls,
        upTo: balls,
        box: balls - start,
        into: 0,
        takes: { family: 'constant', value: 0 },
      },
    },
  };
}

function ringOfTwo(id: string): CheckGroup[] {
  return quantitiesOf(id).map((quantity) => {
    const [, first = NaN, second = NaN, balls = NaN] = (
      /^caps \((\d), (\d)\), K=(\d)/.exec(quantity) ?? []
    ).map(Number);
    return throughputOf(id, quantity, ring(listParam(id, 'mu'), [first, second], balls));
  });
}

function ringOfThree(id: string): CheckGroup {
  const spec = ring(listParam(id, 'mu'), listParam(id, 'caps_total'), param(id, 'K'));
  const station = (m: number): Metric<ReplicationResult>[] => [
    {
      quantity: `station ${m + 1}: mean balls (incl. mechanism)`,
      read: (result) => moduleContent(result, m),
    },
    { quantity: `station ${m + 1}: P(blocked)`, read: (result) => heldUpShare(result, m) },
  ];
  const starved = (m: number): Metric<ReplicationResult> => ({
    quantity: `station ${m + 1}: P(starved, empty)`,
    read: (result) => idle(result, m),
  });
  return sampled(id, {
    replications: REPLICATIONS,
    seconds: SECONDS,
    run: (replication) => run(spec, replication),
    metrics: [
      { quantity: 'throughput', read: throughput },
      { quantity: 'mean lap time', read: meanLap },
      ...[0, 1, 2].flatMap(station),
      starved(0),
      starved(2),
    ],
  });
}

/** Three machines that share the work unevenly. */
function bowl(id: string): CheckGroup[] {
  const times = (...means: number[]): DistributionSpec[] => means.map(exponential);
  const optima = [0, 1, 2].flatMap((spaces) => {
    const name = (what: string): string => `B=${spaces}: ${what}`;
    const outer = exact(id, name('optimal mean of stations 1 and 3'));
    const inner = exact(id, name('optimal mean of station 2'));
    return [
      setAside(id, 'formula', 'where the published throughput is greatest; simulated at these means', [
        name('optimal mean of stations 1 and 3'),
        name('optimal mean of station 2'),
      ]),
      setAside(id, 'formula', 'from the two throughputs, both simulated', [name('gain %')]),
      throughputOf(
        id,
        name('optimal throughput'),
        blockingLine(times(outer, inner, outer), spaces, SHOW),
        'at the published optimal means',
      ),
      throughputOf(id, name('balanced throughput'), blockingLine(times(1, 1, 1), spaces, SHOW)),
    ];
  });
  return [
    ...optima,
    throughputOf(id, 'B=0 with means (1.1,0.8,1.1)', blockingLine(times(1.1, 0.8, 1.1), 0, SHOW)),
    throughputOf(
      id,
      'B=0 with means (0.9,1.2,0.9) (inverted bowl)',
      blockingLine(times(0.9, 1.2, 0.9), 0, SHOW),
    ),
  ];
}

export const section4: readonly CheckGroup[] = [
  ...bowl('BLOCK-BOWL'),
  ...ringOfTwo('BLOCK-CLOSED2'),
  ringOfThree('BLOCK-CLOSED3'),
  setAside('BLOCK-CLOSED3', 'formula', 'a probability of zero has no standard error', [
    'station 2: P(starved, empty)',
  ]),
  ...lines('BLOCK-ERL', (quantity) => erlang(1, Number(/Erlang-(\d)/.exec(quantity)?.[1]))),
  ...lines('BLOCK-HB', () => exponential(1)),
];
