import { describe, expect, it } from 'vitest';
import {
  moduleAvailability,
  roughCut,
  simulate,
  type1Departures,
} from '../../../packages/sim-core/src/index.js';
import { exact, published } from '../../reference/published.js';
import { chain, holds, lasting, loop, module, seconds } from '../../build.js';

describe('availability', () => {
  it('agrees with the renewal argument for running-time failures and for jams per cycle', () => {
    const running = module('m', {
      stops: [
        {
          id: 'wear',
          trigger: { kind: 'running', time: { family: 'exponential', mean: 300 } },
          drops: 0,
          remedy: { kind: 'itself', time: { family: 'exponential', mean: 60 } },
        },
      ],
    });
    // Never starved, cycle 1 s: throughput = availability.
    expect(moduleAvailability(running).availability).toBeCloseTo(
      exact('UNREL-AVAIL', 'SAT, OD or TD: throughput'),
      9,
    );
    expect(moduleAvailability(running).stopsPerHour).toBeCloseTo(
      exact('UNREL-AVAIL', 'TD: stops per hour'),
      9,
    );
    const jamming = module('m', {
      stops: [
        {
          id: 'jam',
          trigger: { kind: 'per_cycle', probability: 0.005 },
          drops: 0,
          remedy: {
            kind: 'crew',
            notice: seconds(5),
            walk: seconds(5),
            clear: { family: 'exponential', mean: 20 },
          },
        },
      ],
    });
    expect(moduleAvailability(jamming).availability).toBeCloseTo(
      exact('UNREL-AVAIL', 'SAT JAM: throughput'),
      9,
    );
    expect(moduleAvailability(jamming).meanStopSeconds).toBe(30);
  });
});

describe('roughCut', () => {
  it('gives the flow of a loop with constant times, exactly', () => {
    const { T, travel } = published('DET-LOOP').params as { T: number[]; travel: number[] };
    for (const balls of [2, 3, 6, 9, 12]) {
      const modules = T.map((cycle, m) =>
        module(`m${m}`, { cycle: seconds(cycle), travel: seconds(travel[m] ?? 0) }),
      );
      const { flowBps } = roughCut(loop(modules, [balls, 0, 0, 0]));
      expect(flowBps).toBeCloseTo(exact('DET-LOOP', `K=${balls}, travel 4.5 s: throughput`), 9);
    }
  });

  it('says where surplus balls stand and how many the loop carries, as a simulation without chance shows', () => {
    // Demand drive, constant times: a lap is 1 + 2 + 4 + 6 = 13 s; the slow module passes 0.5 bps, so 6.5 balls are on the move.
    const spec = (balls: number) =>
      loop(
        [
          module('quick', { basket: holds(20), cycle: seconds(1), travel: seconds(4) }),
          module('slow', { basket: holds(20), cycle: seconds(2), travel: seconds(6) }),
        ],
        [balls, 0],
        {
          show: lasting(4000, 1000),
        },
      );
    const rough = roughCut(spec(16));
    expect(rough.slowest).toBe(1);
    expect(rough.flowBps).toBeCloseTo(0.5, 12);
    expect(rough.ballsOnTheMove).toBeCloseTo(6.5, 9);
    expect(rough.surplusBalls).toBeCloseTo(9.5, 9);
    expect(rough.mostBalls).toBe(26);
    const simulated = simulate(spec(16), { seed: 1 });
    expect(simulated.passes / simulated.measuredSeconds).toBeCloseTo(0.5, 3);
    // Nine or ten balls wait in front of the slow module.
    expect(Math.abs((simulated.modules.levelMean[1] ?? NaN) - rough.surplusBalls)).toBeLessThan(1);
  });

  it('finds the overloaded module of a chain', () => {
    const rough = roughCut(
      chain(
        [
          module('a', { cycle: seconds(0.5) }),
          module('b', { basket: holds(30), cycle: seconds(2) }),
          module('c'),
        ],
        1,
      ),
    );
    expect(rough.modules.map(({ inflowBps }) => inflowBps)).toEqual([1, 1, 0.5]);
    expect(rough.flowBps).toBe(0.5);
    expect(rough.modules[1]?.floodsAfterSeconds).toBe(0);
  });
});

describe('the type 1 interface standard', () => {
  // 1 bps on average, batches of at most 30, an in-basket that takes such a batch: common practice, no source.
  it('is kept by a module just inside it', () => {
    expect(type1Departures(module('m', { basket: holds(30), batch: 30, cycle: seconds(30) }), 1)).toEqual([]);
  });

  it('names every departure', () => {
    const departures = type1Departures(module('m', { basket: holds(29), batch: 31 }), 0.99);
    expect(departures).toHaveLength(3);
    expect(departures.join('; ')).toMatch(/0\.99 balls a second.*31 balls at once.*holds 29 balls/);
  });
});
