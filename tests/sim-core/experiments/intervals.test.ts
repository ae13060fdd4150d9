import { describe, expect, it } from 'vitest';
import { Clumps } from '../../../packages/sim-core/src/experiments/clumps.js';
import { eventsOverShows } from '../../../packages/sim-core/src/experiments/eventsOverShows.js';
import { Shares } from '../../../packages/sim-core/src/experiments/shares.js';
import { UsedRate } from '../../../packages/sim-core/src/experiments/usedRate.js';
import { Moments, stream } from '../../../packages/sim-core/src/index.js';

function sharesOf(values: readonly number[]): Shares {
  const shares = new Shares();
  for (const value of values) shares.add(value);
  return shares;
}

function usedRateOf(shows: readonly (readonly [number, number])[]): UsedRate {
  const rate = new UsedRate();
  for (const [events, hours] of shows) rate.add(events, hours);
  return rate;
}

const nothing = (count: number): number[] => Array.from({ length: count }, () => 0);

describe('a share that is zero in many shows', () => {
  it('has an upper limit though it was never seen: the chance of at least one in a show, for the whole time', () => {
    // Clopper and Pearson: none of n; 1 - (alpha / 2)^(1 / n), and alpha is half of 0.05 here: 1 - 0.0125^(1/10) = 0.354805.
    const { mean, low, high } = sharesOf(nothing(10)).interval(0.95, true);
    expect([mean, low]).toEqual([0, 0]);
    expect(high).toBeCloseTo(0.354805, 6);
  });

  it('is zero for certain where the scenario rules it out', () => {
    expect(sharesOf(nothing(10)).interval(0.95, false)).toMatchObject({ mean: 0, low: 0, high: 0 });
    expect(sharesOf([0]).interval(0.95, false)).toMatchObject({ mean: 0, low: null, high: null });
  });

  it('is Student’s t when every show saw it', () => {
    // 0.2 and 0.4: mean 0.3, s = 0.1414, s / sqrt(2) = 0.1, t(1) = 12.706; cut off at 0 and 1.
    expect(sharesOf([0.2, 0.4]).interval(0.95, true)).toMatchObject({ low: 0, high: 1 });
    // 0.30 to 0.33 in steps of 0.01: s = 0.012910, half = 3.182446 x 0.0064550 = 0.020543.
    const { low, high } = sharesOf([0.3, 0.31, 0.32, 0.33]).interval(0.95, true);
    expect([low, high].map((x) => x?.toFixed(6))).toEqual(['0.294457', '0.335543']);
  });

  it('covers the true share at least as often as it says (2000 samples of 20 shows, 30 % of which see any)', () => {
    const uniform = stream({ seed: 1, replication: 0, place: null, purpose: 'shares' });
    let covered = 0;
    for (let sample = 0; sample < 2000; sample++) {
      const values = nothing(20).map(() => (uniform() < 0.3 ? uniform() ** 2 : 0));
      // Mean of the square of a uniform number: 1/3.
      const { low, high } = sharesOf(values).interval(0.95, true);
      if ((low ?? 1) <= 0.1 && (high ?? 0) >= 0.1) covered++;
    }
    expect(covered / 2000).toBeGreaterThan(0.95 - 3 * Math.sqrt((0.95 * 0.05) / 2000));
  });
});

describe('events per hour of use', () => {
  it('with many events is the ratio of sums, with the error of a ratio', () => {
    // By hand: 80 events in 8 hours, r = 10; events - 10 hours = 2, -2, 3, -3, s = sqrt(26 / 3); mean hours 2;
    // t(3) = 3.182446; half = 3.182446 x sqrt(26 / 3 / 4) / 2 = 2.342216.
    const { mean, low, high, replications } = usedRateOf([
      [12, 1],
      [18, 2],
      [33, 3],
      [17, 2],
    ]).interval(0.95, true);
    expect([mean, replications]).toEqual([10, 4]);
    expect(low).toBeCloseTo(10 - 2.342216, 5);
    expect(high).toBeCloseTo(10 + 2.342216, 5);
  });

  it('with few events has the exact limits of a Poisson count', () => {
    // Three events: 0.6187 to 8.7673 (Garwood's table; also in Johnson, Kotz & Kemp, from memory), here in 6 hours.
    const { mean, low, high } = usedRateOf([
      [2, 4],
      [0, 0],
      [1, 2],
    ]).interval(0.95, true);
    expect(mean).toBeCloseTo(0.5, 12);
    expect((low ?? 0) * 6).toBeCloseTo(0.6187, 4);
    expect((high ?? 0) * 6).toBeCloseTo(8.7673, 4);
  });

  it('counts shows with use only, and has nothing to say without any', () => {
    expect(
      usedRateOf([[1, 2]].concat([[0, 0]]) as [number, number][]).interval(0.95, true).replications,
    ).toBe(1);
    expect(
      usedRateOf([
        [0, 0],
        [0, 0],
      ]).interval(0.95, true),
    ).toMatchObject({ mean: null, low: null, high: null, replications: 0 });
  });

  it('does not lean towards short uses, as a mean of rates would', () => {
    // Uses that end at the first event of a Poisson process of one an hour: 1 / mean(hours) is 1, mean(1 / hours) far above.
    const uniform = stream({ seed: 2, replication: 0, place: null, purpose: 'uses' });
    const { low, high } = usedRateOf(nothing(4000).map(() => [1, -Math.log(uniform())] as const)).interval(
      0.999,
      true,
    );
    expect(low).toBeLessThan(1);
    expect(high).toBeGreaterThan(1);
    expect((high ?? 9) - (low ?? 0)).toBeLessThan(0.2);
  });
});

describe('figures that came out alike in all shows', () => {
  const of = (one: { add(value: number): void }, shows: number, value: number): void => {
    for (let i = 0; i < shows; i++) one.add(value);
  };
  const shares = (shows: number): Shares => {
    const made = new Shares();
    of(made, shows, 0.3);
    return made;
  };
  const clumps = (shows: number): Clumps => {
    const made = new Clumps();
    of(made, shows, 12);
    return made;
  };
  const events = (shows: number): Moments => {
    const made = new Moments();
    of(made, shows, 40);
    return made;
  };
  const used = (shows: number): UsedRate => {
    const made = new UsedRate();
    for (let i = 0; i < shows; i++) made.add(40, 2);
    return made;
  };
  const may = { possible: true, certain: false };
  const must = { possible: true, certain: true };

  it('have no interval until others are rare for sure, from 36 shows on', () => {
    for (const n of [2, 35]) {
      const open = { low: null, high: null, replications: n };
      expect(shares(n).interval(0.95, true)).toMatchObject({ mean: 0.3, ...open });
      expect(clumps(n).interval(0.95, true)).toMatchObject({ mean: 12, ...open });
      expect(used(n).interval(0.95, true)).toMatchObject({ mean: 20, ...open });
      expect(eventsOverShows(events(n), 1, 0.95, may)).toMatchObject({ mean: 40, ...open });
    }
    expect(shares(36).interval(0.95, true)).toMatchObject({ low: 0.3, high: 0.3 });
    expect(clumps(36).interval(0.95, true)).toMatchObject({ low: 12, high: 12 });
    expect(used(36).interval(0.95, true)).toMatchObject({ low: 20, high: 20 });
    expect(eventsOverShows(events(36), 1, 0.95, may)).toMatchObject({ low: 40, high: 40 });
  });

  it('are known from two shows where the scenario leaves nothing to chance', () => {
    expect(shares(2).interval(0.95, true, true)).toMatchObject({ low: 0.3, high: 0.3 });
    expect(clumps(2).interval(0.95, true, true)).toMatchObject({ low: 12, high: 12 });
    expect(used(2).interval(0.95, true, true)).toMatchObject({ low: 20, high: 20 });
    expect(eventsOverShows(events(2), 1, 0.95, must)).toMatchObject({ low: 40, high: 40 });
  });
});
