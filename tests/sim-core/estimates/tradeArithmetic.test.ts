import { describe, expect, it } from 'vitest';
import {
  ballsLeftAfterLeaks,
  basketCapacity,
  expectedStops,
  fallSeconds,
  floodSeconds,
  stopSurge,
  TYPE_1,
} from '../../../packages/sim-core/src/index.js';
import { exact, published } from '../../reference/published.js';

/** Everyday reckoning of the hobby, against the worked values kept in tests/reference/published.json (sources there). */
const close = (value: number, id: string, name: string): void => {
  const expected = exact(id, name);
  expect(value / expected, `${id}: ${name}`).toBeCloseTo(1, 9);
};

describe('trade arithmetic', () => {
  it('free fall', () => {
    close(fallSeconds(914.4), 'TRADE-FALL', 'time');
    close(9.80665 * fallSeconds(914.4), 'TRADE-FALL', 'speed');
  });

  it.each(['TRADE-LEAK', 'TRADE-LEAK-h'])('leaks: %s', (id) => {
    const { K, M, q, laps } = published(id).params as { K: number; M: number; q: number; laps: number };
    const left = ballsLeftAfterLeaks({ balls: K, modules: M, laps, leak: q });
    close(left.mean, id, 'expected balls left');
    close(left.sd, id, 'sd of balls left');
    // No ball lost of K is the chance that one passage after another keeps its ball, K M laps times.
    close(ballsLeftAfterLeaks({ balls: 1, modules: M * K, laps, leak: q }).mean, id, 'P(no ball lost)');
  });

  it('stops in a day', () => {
    close(
      expectedStops({ seconds: 21_600, betweenSeconds: 900 }),
      'TRADE-STOPS',
      'expected stops in 6 h (no repair time)',
    );
    close(
      expectedStops({ seconds: 21_600, betweenSeconds: 900, repairSeconds: 60 }),
      'TRADE-STOPS',
      'expected stops in 6 h with exp. repair mean 60 s, started up',
    );
    close(
      expectedStops({ seconds: 14_400, betweenSeconds: 1130, repairSeconds: 77 }),
      'TRADE-STOPS-h',
      'expected stops',
    );
  });

  it('packing of balls in a basket', () => {
    const size = { widthMm: 64, depthMm: 64, heightMm: 96 };
    for (const packing of [0.555, 0.56, 0.6, 0.62, 0.637, 0.64]) {
      const name = published('TRADE-PACKING').values.find(
        (value) => value.name === `capacity at packing fraction ${packing}`,
      );
      expect(basketCapacity({ ...size, packing })).toBe(Math.floor(Number(name?.value)));
    }
  });

  it('Little’s law and the length of a run', () => {
    const flow = TYPE_1.rateBps;
    close(flow * 720, 'TRADE-LITTLE', 'balls in a 50-machine loop with a 12-minute lap at 1 ball/s');
    close((flow * 720) / 50, 'TRADE-LITTLE', 'per machine');
    close(10_000 / flow, 'TRADE-LITTLE', '10,000 balls at 1 ball/s');
    close(flow * 6 * 3600, 'TRADE-LITTLE', 'balls passed in 6 h at 1/s');
    close((6 * 3600) / 720, 'TRADE-LITTLE', 'laps in 6 h of a 12-minute lap');
    close(TYPE_1.mostBatch / 30, 'TRADE-LITTLE', 'batch feed 30 per 30 s = mean rate');
  });
});

describe('a stop, in the fluid limit', () => {
  it.each([
    {
      r: 1,
      mu: 1.25,
      C: 30,
      B0: 6,
      d: 40,
      id: 'TRANS-WHATIF',
      prefix: 'r=1.0 mu=1.25 C=30 B0=6 d=40.0: ',
      recovery: 'fluid recovery time after restart',
    },
    {
      r: 0.8,
      mu: 1.3,
      C: 25,
      B0: 0,
      d: 90,
      id: 'TRANS-WHATIF',
      prefix: 'r=0.8 mu=1.3 C=25 B0=0 d=90.0: ',
      recovery: 'fluid recovery time after restart',
    },
    {
      r: 1.137,
      mu: 1.483,
      C: 41,
      B0: 9,
      d: 57.3,
      id: 'TRANS-WHATIF-h',
      prefix: '',
      recovery: 'fluid recovery',
    },
  ])('$id $prefix', ({ r, mu, C, B0, d, id, prefix, recovery }) => {
    const surge = stopSurge({ capacity: C, level: B0, inflowBps: r, stopSeconds: d, capacityBps: mu });
    close(surge.fullAfterSeconds, id, `${prefix}fluid time to full`);
    close(surge.spilledBalls, id, `${prefix}fluid balls spilled`);
    close(surge.calmAfterSeconds, id, `${prefix}${recovery}`);
  });

  it('never floods what cannot overflow or gets nothing', () => {
    expect(floodSeconds({ capacity: Infinity, level: 5, inflowBps: 1 })).toBe(Infinity);
    expect(floodSeconds({ capacity: 50, level: 5, inflowBps: 0 })).toBe(Infinity);
    expect(floodSeconds({ capacity: 50, level: 60, inflowBps: 1 })).toBe(0);
    expect(() => floodSeconds({ capacity: 50, level: NaN, inflowBps: 1 })).toThrow(/level is NaN/);
    expect(
      stopSurge({ capacity: 30, level: 6, inflowBps: 1, stopSeconds: 40, capacityBps: 0.9 }).calmAfterSeconds,
    ).toBe(Infinity);
  });
});
