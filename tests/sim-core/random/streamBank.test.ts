import alea from 'seedrandom/lib/alea.js';
import { describe, expect, it } from 'vitest';
import { StreamBank, stream, streamKey } from '../../../packages/sim-core/src/random/index.js';
import { gammaCdf, normalCdf } from '../../../packages/sim-core/src/numerics/index.js';

const key = (replication: number, place: string | null, purpose: string): string =>
  streamKey({ seed: 1, replication, place, purpose });

/** Upper tail of the chi-square distribution. */
const chiSquareTail = (x: number, degrees: number): number => 1 - gammaCdf(x / 2, degrees / 2);

describe('StreamBank', () => {
  it('yields exactly the numbers of the double() of seedrandom’s alea', () => {
    const keys = ['["x"]\0', key(0, 'tipper', 'cycle'), key(41, null, 'feed')];
    const bank = new StreamBank(keys.length);
    for (const [i, k] of keys.entries()) bank.open(i, k);
    const reference = keys.map((k) => alea(k, { state: true }));
    for (let draw = 0; draw < 20_000; draw++) {
      for (const [i, generator] of reference.entries()) expect(bank.next(i)).toBe(generator.double());
    }
  });

  it('never yields 0 or 1, so that every logarithm of a draw is finite', () => {
    const bank = new StreamBank(1);
    // A state that yields 0 next: all parts zero.
    (bank as unknown as { state: Float64Array }).state.fill(0);
    expect(bank.next(0)).toBe(2 ** -54);
  });

  it('yields NaN from a stream that was never opened, which the event queue refuses', () => {
    expect(new StreamBank(1).next(0)).toBeNaN();
  });

  it('is uniform and without serial correlation within a stream', () => {
    const next = stream({ seed: 1, replication: 0, place: 'tipper', purpose: 'cycle' });
    const n = 200_000;
    const cells = new Float64Array(100);
    const pairs = new Float64Array(400);
    let previous = next();
    for (let i = 0; i < n; i++) {
      const u = next();
      cells[Math.floor(100 * u)]! += 1;
      pairs[Math.floor(20 * previous) * 20 + Math.floor(20 * u)]! += 1;
      previous = u;
    }
    const chi = (counts: Float64Array): number =>
      counts.reduce((sum, count) => sum + (count - n / counts.length) ** 2 / (n / counts.length), 0);
    expect(chiSquareTail(chi(cells), 99)).toBeGreaterThan(0.001);
    expect(chiSquareTail(chi(pairs), 399)).toBeGreaterThan(0.001);
  });

  it('gives neighbouring addresses independent first draws: over replications, modules, purposes and seeds', () => {
    const families: ((i: number) => string)[] = [
      (i) => key(i, 'tipper', 'cycle'),
      (i) => key(0, `module-${i}`, 'cycle'),
      (i) => key(3, 'tipper', `stop:${i}`),
      (i) => streamKey({ seed: i, replication: 0, place: 'tipper', purpose: 'cycle' }),
    ];
    const n = 20_000;
    for (const family of families) {
      const first = new Float64Array(n);
      const bank = new StreamBank(n);
      for (let i = 0; i < n; i++) {
        bank.open(i, family(i));
        first[i] = bank.next(i);
      }
      const cells = new Float64Array(50);
      for (const u of first) cells[Math.floor(50 * u)]! += 1;
      const chi = cells.reduce((sum, count) => sum + (count - n / 50) ** 2 / (n / 50), 0);
      expect(chiSquareTail(chi, 49)).toBeGreaterThan(0.001);
      // Lag-1 correlation over neighbouring keys: standard error 1 / sqrt(n).
      let product = 0;
      for (let i = 1; i < n; i++) product += (first[i]! - 0.5) * (first[i - 1]! - 0.5);
      const z = ((12 * product) / (n - 1)) * Math.sqrt(n - 1);
      expect(2 * normalCdf(-Math.abs(z))).toBeGreaterThan(0.001);
    }
  });
});

describe('streamKey', () => {
  it('keeps addresses apart that seedrandom alone would confuse', () => {
    const keys = [
      streamKey({ seed: 1, replication: 0, place: 'ab', purpose: 'c' }),
      streamKey({ seed: 1, replication: 0, place: 'a', purpose: 'bc' }),
      streamKey({ seed: 1, replication: 0, place: 'abab', purpose: 'c' }),
      streamKey({ seed: 10, replication: 0, place: 'ab', purpose: 'c' }),
      streamKey({ seed: 1, replication: 0, place: null, purpose: 'c' }),
      streamKey({ seed: 1, replication: 0, place: 'null', purpose: 'c' }),
    ];
    expect(new Set(keys).size).toBe(keys.length);
  });

  it('refuses a seed or replication that is not a whole number', () => {
    for (const seed of [-1, 0.5, NaN, 2 ** 53]) {
      expect(() => streamKey({ seed, replication: 0, place: 'a', purpose: 'b' })).toThrow(/seed/);
    }
    expect(() => streamKey({ seed: 1, replication: -1, place: 'a', purpose: 'b' })).toThrow(/replication/);
  });
});
