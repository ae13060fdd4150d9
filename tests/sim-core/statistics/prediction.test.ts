import { describe, expect, it } from 'vitest';
import { jointRanks, predictionBand } from '@lapwright/sim-core';
import { stream } from '../../../packages/sim-core/src/random/index.js';

/** Chance of more than `most` of `n` when each has chance p: sum of the binomial distribution. */
function moreThan(most: number, n: number, p: number): number {
  let term = (1 - p) ** n;
  let below = term;
  for (let k = 1; k <= most; k++) {
    term *= ((n - k + 1) / k) * (p / (1 - p));
    below += term;
  }
  return 1 - below;
}

describe('the band for one new value', () => {
  // A new value has each rank among N + 1 with the same chance (Wilks 1941): with N = 199 and k = 5 the band leaves out
  // exactly 2 x 5 / 200 = 5 % of continuous values.
  it('leaves out as many new values as it says', () => {
    const luck = stream({ seed: 41, replication: 0, place: null, purpose: 'test' });
    const trials = 2000;
    let out = 0;
    for (let t = 0; t < trials; t++) {
      const band = predictionBand(
        Array.from({ length: 199 }, () => Math.log(luck())),
        0.95,
      );
      const value = Math.log(luck());
      if (band === null || value < band.low || value > band.high) out++;
    }
    expect(Math.abs(out - 0.05 * trials) / Math.sqrt(0.05 * 0.95 * trials)).toBeLessThan(3);
  });

  it('is none where the values are too few for the promise', () => {
    const values = Array.from({ length: 38 }, (_, i) => i);
    expect(predictionBand(values, 0.95)).toBeNull();
    expect(predictionBand([...values, 38], 0.95)).toMatchObject({ low: 0, high: 38, replications: 39 });
    // Shows with nothing to measure do not count.
    expect(predictionBand([...values, NaN], 0.95)).toBeNull();
    expect(() => predictionBand(values, 1)).toThrow('confidence');
  });
});

describe('ranks of many figures together', () => {
  it('cries wolf as seldom as it says, with figures that hang together and counts that tie', () => {
    const luck = stream({ seed: 42, replication: 0, place: null, purpose: 'test' });
    const show = (): number[] => {
      const common = luck();
      const counts = Array.from({ length: 12 }, () => Math.floor(-2 * Math.log(luck() * common)));
      return [...counts, common, Math.log(luck())];
    };
    const trials = 1000;
    let alarms = 0;
    for (let t = 0; t < trials; t++) {
      const chances = jointRanks(
        show(),
        Array.from({ length: 59 }, () => show()),
      );
      if (Math.min(...chances) <= 0.05) alarms++;
    }
    // Monte Carlo ranks are exact but for ties, which make it more careful: at most 5 %, see Barnard 1963.
    expect(moreThan(alarms - 1, trials, 0.05)).toBeGreaterThan(0.001);
    expect(alarms).toBeGreaterThan(0);
  });

  it('finds the one that is off, and says nothing of what was not logged', () => {
    const luck = stream({ seed: 43, replication: 0, place: null, purpose: 'test' });
    const simulated = Array.from({ length: 199 }, () => Array.from({ length: 5 }, () => luck()));
    const [first, , third, nothing] = jointRanks([0.5, 0.4, 9, NaN, 0.6], simulated);
    expect(third).toBe(1 / 200);
    expect(first).toBeGreaterThan(0.05);
    expect(nothing).toBeNaN();
    expect(() => jointRanks([1], [])).toThrow('at least 1');
    expect(() => jointRanks([1], [[1, 2]])).toThrow('rows of 1');
  });
});
