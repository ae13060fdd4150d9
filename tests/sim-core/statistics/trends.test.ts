import { describe, expect, it } from 'vitest';
import { eventTrend, rankTrend } from '../../../packages/sim-core/src/index.js';

describe('a trend in stops', () => {
  it('has the power of the NIST handbook', () => {
    // NIST/SEMATECH e-Handbook 8.4.2.2 (and 8.2.2.3, case study 1): 1 - b = 0.516494 (confirmed in a public copy of its
    // R output).
    const trend = eventTrend([{ times: [5, 40, 43, 175, 389, 712, 747, 795, 1299, 1478], until: 1500 }]);
    expect(trend?.power).toBeCloseTo(1 - 0.516494, 6);
    expect(trend?.laplace).toBeLessThan(0);
  });

  it('has the power of MIL-HDBK-189', () => {
    // MIL-HDBK-189 (1981), appendix C: 27 failures in 300 h, power 0.716, 0.690 without bias (confirmed in a public copy).
    const times = [
      2.6, 16.5, 16.5, 17, 21.4, 29.1, 33.3, 56.5, 63.1, 70.6, 73, 77.7, 93.9, 95.5, 98.1, 101.1, 132, 142.2,
      147.7, 149, 167.2, 190.7, 193, 198.7, 251.9, 282.5, 286.1,
    ];
    const trend = eventTrend([{ times, until: 300 }]);
    expect(trend?.power).toBeCloseTo(0.689808, 5);
    expect((2 * times.length) / (trend?.statistic ?? NaN)).toBeCloseTo(0.716339, 5);
  });

  it('is level for evenly spread stops, and adds up over days', () => {
    // By hand: four stops at 1 to 4 of 5 lie 0 from the middle on the whole; 2 ln(625 / 24).
    const even = { times: [1, 2, 3, 4], until: 5 };
    expect(eventTrend([even])?.laplace).toBeCloseTo(0, 12);
    expect(eventTrend([even])?.statistic).toBeCloseTo(2 * Math.log(625 / 24), 12);
    expect(eventTrend([even, even])?.statistic).toBeCloseTo(4 * Math.log(625 / 24), 12);
    // Both late: (4 - 2.5 + 4.5 - 2.5) / sqrt(2 x 25 / 12) = 3.5 / 2.0412.
    expect(eventTrend([{ times: [4, 4.5], until: 5 }])?.laplace).toBeCloseTo(3.5 / Math.sqrt(50 / 12), 12);
  });

  it('says nothing of fewer than two stops and refuses impossible ones', () => {
    expect(eventTrend([{ times: [3], until: 5 }])).toBeNull();
    expect(() => eventTrend([{ times: [6, 7], until: 5 }])).toThrow(/at most 5/);
  });
});

describe('a trend in values', () => {
  const series = (values: readonly number[]): { at: number; value: number }[] =>
    values.map((value, at) => ({ at, value }));

  it('has the score of a published example', () => {
    // Hollander & Wolfe 1973, p. 185, the example of R's cor.test: tau = 0.4444444 of 9 pairs of values, so S = 16 of 36
    // (from memory).
    const x = [44.4, 45.9, 41.9, 53.3, 44.7, 44.1, 50.7, 45.2, 60.1];
    const y = [2.6, 3.1, 2.5, 5.0, 3.6, 4.0, 5.2, 2.8, 3.8];
    const ordered = x.map((value, i) => ({ at: value, value: y[i] ?? NaN })).toSorted((a, b) => a.at - b.at);
    expect(rankTrend([ordered])?.score).toBe(16);
  });

  it('counts ties, by hand', () => {
    // 1, 2, 2, 3: five pairs rise, one is tied; var = (4 x 3 x 13 - 2 x 1 x 9) / 18 = 23 / 3.
    const trend = rankTrend([series([1, 2, 2, 3])]);
    expect(trend?.score).toBe(5);
    expect(trend?.z).toBeCloseTo(4 / Math.sqrt(23 / 3), 12);
    // Slopes 1, 1/2, 2/3, 0, 1/2, 1: the middle of 1/2 and 2/3.
    expect(trend?.slope).toBeCloseTo(7 / 12, 12);
  });

  it('does not compare one day with another', () => {
    const falling = series([9, 8, 7, 6]);
    const later = falling.map(({ at, value }) => ({ at: at + 100, value: value + 50 }));
    expect(rankTrend([falling, later])?.score).toBe(-12);
  });

  it('takes long series together and still sees their slope', () => {
    const trend = rankTrend([series(Array.from({ length: 5000 }, (_, i) => 10 + 0.01 * i))]);
    expect(trend?.slope).toBeCloseTo(0.01, 10);
    expect(trend?.n).toBeLessThan(500);
  });

  it('says nothing of few or equal values', () => {
    expect(rankTrend([series([1, 2, 3])])).toBeNull();
    expect(rankTrend([series([2, 2, 2, 2])])).toBeNull();
  });
});
