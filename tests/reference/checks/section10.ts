import type { DistributionSpec } from '../../../packages/sim-core/src/distributions/index.js';
import type { ReplicationResult } from '../../../packages/sim-core/src/model/index.js';
import type { LoopSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { type CheckGroup, type Metric, sampled, setAside } from '../check.js';
import { partOf } from '../length.js';
import { type Reading, run, stoppedShare, stops, sum } from '../measure.js';
import { exact, param } from '../published.js';
import { squareAbout } from '../remarks.js';
import { constant, exponential, freesItself, fromTheStart, loop, machine, neverStarved } from '../specs.js';

/* Trade arithmetic: balls lost on the way, stops in a day. */

const ESTIMATES = 'no time and no chance in it: left to the tests of the estimates';

const lost = (result: ReplicationResult): number => sum(result.modules.leaks);

const passages = (result: ReplicationResult): number => sum(result.modules.handedOn) + lost(result);

/**
 * All balls go round in one batch, so that a lap takes exactly as many seconds as there are machines and nobody is ahead
 * when the laps are counted.
 */
function leaks(id: string): CheckGroup[] {
  const machines = param(id, 'M');
  const balls = param(id, 'K');
  const leak = param(id, 'q');
  const seconds = machines * param(id, 'laps') + 0.5;
  const modules = Array.from({ length: machines }, (_, m) =>
    machine(constant(1), { id: `machine ${m}`, batch: balls, leak }),
  );
  const together = loop(balls, modules, fromTheStart(seconds));
  const placed = modules.map((_, m) => (m === 0 ? balls : 0));
  const spec = { ...together, supply: { kind: 'charge', placed } as const };
  const mean = exact(id, 'expected balls left');
  return [
    setAside(id, 'formula', 'a run without a loss is far too rare to be seen', ['P(no ball lost)']),
    sampled(id, {
      replications: partOf(400, 0.7),
      seconds,
      run: (replication) => run(spec, replication),
      metrics: [
        {
          quantity: 'expected balls left',
          expected: balls - mean,
          read: (result) => [lost(result), 1],
          remark: 'as balls lost, which is the harder test',
        },
        {
          quantity: 'sd of balls left',
          expected: exact(id, 'sd of balls left') ** 2,
          read: (result) => [(balls - lost(result) - mean) ** 2, 1],
          // A variance known to 7 %, or in `npm test` to 9 %: more runs of up to a million passages each would take too long.
          bluntest: 0.1,
          remark: squareAbout(mean),
        },
        {
          quantity: 'expected passages of one ball before loss',
          read: (result) => [passages(result), lost(result)],
          remark: 'passages of all balls for each loss',
        },
      ],
    }),
  ];
}

/** Stops of a machine that always runs when it is up, from the opening on. */
function wearing(up: number, repair: DistributionSpec, seconds: number): LoopSpec {
  const stop = freesItself({ kind: 'running', time: exponential(up) }, repair);
  // Its cycle matters to nothing but the number of events.
  return neverStarved(machine(constant(up / 4), { stops: [stop] }), fromTheStart(seconds));
}

const stopCount = (result: ReplicationResult): Reading => [stops(result), 1];

/* Named in the description and the quantities of TRADE-STOPS, not among its parameters. */
const REPAIR_MEAN = 60;
const JAM_PER_BALL = 1 / 1000;
const RUN_OF_BALLS = 10_000;
const CLEAN = 'p per ball for 50 % chance of a clean 10,000 run';

function stopsInADay(id: string): CheckGroup[] {
  const up = param(id, 'MTBF');
  const seconds = param(id, 'T');
  const replications = partOf(5000);
  const mean = exact(id, 'expected stops in 6 h (no repair time)');
  const atOnce = wearing(up, constant(0), seconds);
  const repaired = wearing(up, exponential(REPAIR_MEAN), seconds);
  return [
    setAside(id, 'formula', 'a day without a stop is far too rare to be seen', ['P(no stop in 6 h)']),
    setAside(id, 'formula', 'too rare to be seen, and an approximation of it', [
      'P(no jam in 10,000 balls), p=1/1000',
      'Poisson approximation e^-10',
    ]),
    sampled(id, {
      replications,
      seconds,
      run: (replication) => run(atOnce, replication),
      metrics: [
        { quantity: 'expected stops in 6 h (no repair time)', read: stopCount },
        {
          quantity: 'sd of stops',
          expected: exact(id, 'sd of stops') ** 2,
          read: (result) => [(stops(result) - mean) ** 2, 1],
          remark: squareAbout(mean),
        },
        {
          quantity: 'P(15 <= stops <= 33)',
          read: (result) => [stops(result) >= 15 && stops(result) <= 33 ? 1 : 0, 1],
        },
      ],
    }),
    sampled(id, {
      replications,
      seconds,
      run: (replication) => run(repaired, replication),
      metrics: [
        { quantity: 'expected stops in 6 h with exp. repair mean 60 s, started up', read: stopCount },
      ],
    }),
    jams(id, {
      batch: 1,
      probability: JAM_PER_BALL,
      replications: partOf(400),
      metric: { quantity: 'expected jams', read: stopCount },
    }),
    jams(id, {
      batch: 10,
      probability: exact(id, CLEAN),
      replications: partOf(2000),
      metric: {
        quantity: CLEAN,
        expected: 0.5,
        read: (result) => [stops(result) === 0 ? 1 : 0, 1],
        remark: 'share of clean runs at the published p, in batches of 10',
      },
    }),
  ];
}

interface Jamming {
  readonly batch: number;
  /** Of a jam, for each ball. */
  readonly probability: number;
  readonly replications: number;
  readonly metric: Metric<ReplicationResult>;
}

/** A run of balls through a machine that jams at a ball with a given chance and frees itself at once. */
function jams(id: string, { batch, probability, replications, metric }: Jamming): CheckGroup {
  const stop = freesItself({ kind: 'per_ball', probability }, constant(0));
  const module = machine(constant(1), { batch, stops: [stop] });
  // One cycle a second from the opening on: at this moment the last ball's cycle, and any jam in it, is just over.
  const seconds = RUN_OF_BALLS / batch;
  const spec = loop(2 * batch, [module], fromTheStart(seconds));
  return sampled(id, {
    replications,
    seconds,
    run: (replication) => run(spec, replication),
    metrics: [metric],
  });
}

/** A machine that starts up and is repaired whenever it stops. */
function stopsInAShow(id: string): CheckGroup[] {
  const seconds = param(id, 'T');
  const spec = wearing(param(id, 'MTBF'), exponential(param(id, 'MTTR')), seconds);
  return [
    setAside(id, 'formula', 'a show without a stop is far too rare to be seen', ['P(no stop)']),
    sampled(id, {
      replications: partOf(5000),
      seconds,
      run: (replication) => run(spec, replication),
      metrics: [
        { quantity: 'expected stops', read: stopCount },
        {
          quantity: 'expected up fraction over the 4 h',
          read: (result) => [1 - stoppedShare(result)[0], 1],
        },
      ],
    }),
  ];
}

export const section10: readonly CheckGroup[] = [
  setAside('TRADE-FALL', 'arithmetic', ESTIMATES),
  ...leaks('TRADE-LEAK'),
  setAside('TRADE-LITTLE', 'arithmetic', ESTIMATES),
  setAside('TRADE-PACKING', 'arithmetic', ESTIMATES),
  ...stopsInADay('TRADE-STOPS'),
  ...leaks('TRADE-LEAK-h'),
  ...stopsInAShow('TRADE-STOPS-h'),
];
