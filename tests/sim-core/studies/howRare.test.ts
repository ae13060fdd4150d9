import { describe, expect, it } from 'vitest';
import { showsHere } from '../../../packages/sim-core/src/experiments/index.js';
import { howRare, nextLevels, Study, watchable } from '../../../packages/sim-core/src/studies/index.js';
import { chanceOfSpill, mm1k } from '../experiments/mm1k.js';

const here = (seed = 1): Study => new Study({ seed, source: showsHere() });

describe('how rare it is that a basket runs over', () => {
  it('is found with levels of its own choice, and right', async () => {
    const exact = chanceOfSpill(0.5, 15, 100);
    const found = await howRare(here(), mm1k(0.5, 15, 100), { starts: 1000 });
    expect(found.method).toBe('splitting');
    expect(found.levels.length).toBeGreaterThan(2);
    const mean = found.in_a_show.mean ?? NaN;
    const error = Math.sqrt((mean * (1 - mean)) / (found.worth_shows ?? NaN));
    expect(Math.abs(mean - exact) / error).toBeLessThan(3);
    expect(found.in_a_show.low).toBeLessThan(exact);
    expect(found.in_a_show.high).toBeGreaterThan(exact);
    expect(found.worth_shows).toBeGreaterThan(5 * (found.shows + found.pilot_shows));
  });

  it('is left to plain shows where it is seen often', async () => {
    const found = await howRare(here(), mm1k(0.5, 4, 600), { starts: 20 });
    expect(found).toMatchObject({ method: 'plain', levels: [], shows: 20, worth_shows: 20 });
  });

  it('has the exact limit where every hour of every show saw it', async () => {
    // Of 20 shows in 20: the chance p at which that happens once in forty, p^20 = 0.025 (pencil and paper).
    const low = 0.025 ** (1 / 20);
    const { in_a_show: show, in_an_hour: hour } = await howRare(here(), mm1k(0.9, 2, 7200), { starts: 20 });
    for (const estimate of [show, hour]) {
      expect(estimate).toMatchObject({ mean: 1, high: 1 });
      expect(estimate.low).toBeCloseTo(low, 9);
    }
  });

  it('is refused for a basket that cannot run over', async () => {
    const spec = mm1k(0.5, Infinity, 600);
    expect(watchable(spec)).toEqual([]);
    await expect(howRare(here(), spec, { starts: 20 })).rejects.toThrow('whose basket can run over');
  });
});

describe('the next levels', () => {
  it('are where a quarter reach them, and a quarter of these', () => {
    const peaks = Array.from({ length: 64 }, (_, i) => (i + 1) / 100);
    expect(nextLevels(peaks, 0)).toEqual([
      { share: 0.49, copies: 4 },
      { share: 0.61, copies: 4 },
    ]);
  });

  it('are none where enough run over, or nobody comes higher', () => {
    expect(nextLevels([0.5, 0.5, 2, 2], 0)).toEqual([]);
    expect(nextLevels([0.5, 0.5, 0.5, 0.5], 0.5)).toEqual([]);
  });
});
