import { describe, expect, it } from 'vitest';
import {
  houseRules,
  MEASURES,
  measureIndex,
  type ShowSource,
  type StudyTask,
} from '../../../packages/sim-core/src/experiments/index.js';
import { simulate } from '../../../packages/sim-core/src/model/index.js';
import type { ModuleSpec, StopTriggerSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { normalQuantile } from '../../../packages/sim-core/src/numerics/index.js';
import { stream } from '../../../packages/sim-core/src/random/index.js';
import { stopsTimes } from '../../../packages/sim-core/src/studies/inline/scaledStops.js';
import {
  type ToleratedStops,
  toleratedStops,
} from '../../../packages/sim-core/src/studies/inline/toleratedStops.js';
import { Study, system } from '../../../packages/sim-core/src/studies/index.js';
import { loop, module, seconds } from '../../build.js';
import { exampleLoop } from '../../docs/exampleLoop.js';

/** Stops of a module that has them by an exponential time of running of 600 s: so many times as often as at first. */
function factorOf({ spec }: StudyTask): number {
  const trigger = spec.modules[1]?.stops[0]?.trigger;
  return trigger?.kind === 'running' && trigger.time.family === 'exponential' ? 600 / trigger.time.mean : 0;
}

/** Shows whose spills and laps are made up from the factor; four stops an hour at 1. */
function made(spills: (factor: number) => number, lap: (factor: number) => number): ShowSource {
  return {
    size: 1,
    run: (task) => {
      const normal = stream({ seed: task.seed, replication: task.replication, place: null, purpose: 'luck' });
      const own = stream({
        seed: task.seed,
        replication: task.replication,
        place: null,
        purpose: `own ${factorOf(task)}`,
      });
      const draw = (from: () => number): number => normalQuantile(from());
      const factor = factorOf(task);
      const values = MEASURES.map(() => 1);
      // Part of the luck is the same at every factor, part is not.
      values[measureIndex('spills_per_hour')] = spills(factor) + 12 * draw(normal) + 8 * draw(own);
      values[measureIndex('loop_time_p95_s')] = lap(factor) + 20 * draw(normal) + 15 * draw(own);
      return Promise.resolve([...values, 48 * factor, 12]);
    },
    close: () => Promise.resolve(),
  };
}

const scaled = (factor: number) =>
  system(
    `${factor}`,
    {
      ...exampleLoop,
      modules: exampleLoop.modules.map((one, m) => (m === 1 ? stopsTimes(one, factor) : one)),
    },
    { kind: 'watch', module: 'slow' },
  );

function limitOf(
  seed: number,
  source: ShowSource,
  rules = houseRules({ spills_per_hour: 80 }),
): Promise<ToleratedStops> {
  return toleratedStops(new Study({ seed, source }), {
    rules,
    at: scaled,
    replications: 20,
    hours: 12,
    confidence: 0.95,
  });
}

/** How often the interval holds the true factor, how far its middle lies from it and how wide it is, on average. */
async function coverage(
  truth: number,
  source: ShowSource,
  rules = houseRules({ spills_per_hour: 80 }),
): Promise<{ share: number; bias: number; width: number; open: number }> {
  let held = 0;
  let middle = 0;
  let width = 0;
  let open = 0;
  for (let seed = 1; seed <= TIMES; seed++) {
    const { factor } = await limitOf(seed, source, rules);
    if (factor.low <= truth && truth <= (factor.high ?? Infinity)) held++;
    if (factor.high === null || factor.mean === null) open++;
    else {
      middle += factor.mean;
      width += factor.high - factor.low;
    }
  }
  const closed = TIMES - open;
  return { share: held / TIMES, bias: middle / closed - truth, width: width / closed, open: open / TIMES };
}

const TIMES = 500;
/** Three standard errors below 95 %. */
const LEAST = 0.95 - 3 * Math.sqrt((0.95 * 0.05) / TIMES);

describe('the most stops that the rules stand', () => {
  it('lie in their interval as often as it says, below and above what there is now', async () => {
    // 50 + 60 f balls an hour: 80 at f = 0.5. And 50 + 12 f: 80 at f = 2.5.
    for (const [truth, slope] of [
      [0.5, 60],
      [2.5, 12],
    ] as const) {
      const found = await coverage(
        truth,
        made(
          (f) => 50 + slope * f,
          () => 600,
        ),
      );
      expect(found.share).toBeGreaterThan(LEAST);
      expect(Math.abs(found.bias)).toBeLessThan(0.05 * truth);
      // Noise of 14.4 a show over 20 shows: a half interval of 2.09 x 3.2 = 6.7 balls, so 13.5 / slope wide; twice that at most.
      expect(found.width).toBeLessThan((2 * 13.5) / slope);
      expect(found.open).toBeLessThan(0.02);
    }
  }, 120_000);

  it('do so on a curve that bends, and with two rules of which either may break first', async () => {
    // 50 + 30 f^2: 80 at f = 1. Laps 820 + 80 f: 900 at the same f.
    const found = await coverage(
      1,
      made(
        (f) => 50 + 30 * f * f,
        (f) => 820 + 80 * f,
      ),
      houseRules({ spills_per_hour: 80, longest_lap: 900 }),
    );
    expect(found.share).toBeGreaterThan(LEAST);
    expect(found.open).toBeLessThan(0.05);
  }, 120_000);

  it('are told as stops per hour as measured', async () => {
    const {
      stops_per_hour: rate,
      factor,
      now,
      rule,
    } = await limitOf(
      3,
      made(
        (f) => 50 + 60 * f,
        () => 600,
      ),
    );
    expect([now, rule]).toEqual([4, 'spills_per_hour']);
    expect(rate.mean).toBeCloseTo(4 * (factor.mean ?? NaN), 9);
    expect(rate.low).toBeCloseTo(4 * factor.low, 9);
  });

  it('are none where rules are broken even without stops, and are not found where stops hardly matter', async () => {
    const none = await limitOf(
      1,
      made(
        () => 150,
        () => 600,
      ),
    );
    expect(none.found).toBe('none');
    const beyond = await limitOf(
      1,
      made(
        () => 20,
        () => 600,
      ),
    );
    expect([beyond.found, beyond.factor]).toEqual(['beyond', { mean: null, low: 32, high: null }]);
  });
});

describe('scaled stops', () => {
  const stopping = (trigger: StopTriggerSpec): ModuleSpec =>
    module('lift', {
      stops: [{ id: 'jam', trigger, drops: 0, remedy: { kind: 'itself', time: seconds(0) } }],
    });
  const stopsPerHour = (one: ModuleSpec): number => {
    const result = simulate(loop([one], [1], { show: { seconds: 360_000, warmUpSeconds: 0 } }), {
      seed: 5,
      replication: 0,
    });
    return (result.modules.stops[0] ?? NaN) / 100;
  };

  // One ball goes round a lift of 1 s without pause: 3,600 cycles an hour. Counts of 100 hours, three standard errors.
  it.each<[string, StopTriggerSpec]>([
    ['per cycle', { kind: 'per_cycle', probability: 0.005 }],
    ['per ball', { kind: 'per_ball', probability: 0.005 }],
    ['of running', { kind: 'running', time: { family: 'exponential', mean: 200 } }],
    ['by the clock', { kind: 'clock', time: { family: 'gamma', mean: 200, cv: 1 } }],
    ['after a constant time', { kind: 'running', time: { family: 'constant', value: 200 } }],
    ['after a uniform time', { kind: 'running', time: { family: 'uniform', min: 100, max: 300 } }],
    [
      'after a triangular time',
      { kind: 'running', time: { family: 'triangular', min: 100, mode: 200, max: 300 } },
    ],
    ['after a time by scale', { kind: 'clock', time: { family: 'weibull', scale: 200, shape: 1 } }],
    ['after times that were seen', { kind: 'clock', time: { family: 'empirical', values: [100, 300] } }],
  ])('come so many times as often: %s', (_, trigger) => {
    const wanted = 18;
    expect(Math.abs(stopsPerHour(stopping(trigger)) - wanted)).toBeLessThan(3 * Math.sqrt(wanted / 100));
    expect(Math.abs(stopsPerHour(stopsTimes(stopping(trigger), 3)) - 3 * wanted)).toBeLessThan(
      3 * Math.sqrt((3 * wanted) / 100),
    );
    expect(stopsPerHour(stopsTimes(stopping(trigger), 0))).toBe(0);
  });

  it('stay chances below 1, and planned stops stay where they are', () => {
    const likely = stopsTimes(stopping({ kind: 'per_cycle', probability: 0.5 }), 32).stops[0]?.trigger;
    // 1 - 0.5^32.
    expect(likely).toEqual({ kind: 'per_cycle', probability: 1 - 2 ** -32 });
    const planned: StopTriggerSpec = { kind: 'at', times: [60] };
    expect(stopsTimes(stopping(planned), 5).stops[0]?.trigger).toEqual(planned);
    expect(stopsTimes(stopping(planned), 0).stops).toHaveLength(1);
  });
});
