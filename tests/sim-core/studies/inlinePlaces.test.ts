import { describe, expect, it } from 'vitest';
import {
  MEASURES,
  measureIndex,
  type ShowSource,
  type StudyTask,
} from '../../../packages/sim-core/src/experiments/index.js';
import { normalQuantile } from '../../../packages/sim-core/src/numerics/index.js';
import { stream } from '../../../packages/sim-core/src/random/index.js';
import { type PlaceSearch, searchPlace } from '../../../packages/sim-core/src/studies/inline/placeSearch.js';
import { Study, system } from '../../../packages/sim-core/src/studies/index.js';
import { exampleLoop } from '../../docs/exampleLoop.js';

const PLACES = 30;
const systems = Array.from({ length: PLACES }, (_, i) =>
  system(`place ${i}`, { ...exampleLoop, show: { seconds: 3600 + i, warmUpSeconds: 0 } }),
);
const labels = systems.map(({ label }) => label);
const placeOf = ({ spec }: StudyTask): number => spec.show.seconds - 3600;

/** Spills with luck that all places share and luck of each place. */
function made(spills: (place: number) => number): ShowSource {
  return {
    size: 1,
    run: (task) => {
      const { seed, replication } = task;
      const draw = (purpose: string): number =>
        normalQuantile(stream({ seed, replication, place: null, purpose })());
      const values = MEASURES.map(() => 1);
      values[measureIndex('spills_per_hour')] =
        spills(placeOf(task)) + 20 * draw('shared') + 10 * draw(`own ${placeOf(task)}`);
      return Promise.resolve(values);
    },
    close: () => Promise.resolve(),
  };
}

async function search(seed: number, source: ShowSource): Promise<{ found: PlaceSearch; study: Study }> {
  const study = new Study({ seed, source });
  const found = await searchPlace(study, systems, labels, {
    measure: 'spills_per_hour',
    better: 'less',
    budget: 130,
    confidence: 0.95,
  });
  return { found, study };
}

describe('the search for a place', () => {
  it('finds one that is far better, and keeps to its shows', async () => {
    let hits = 0;
    for (let seed = 1; seed <= 100; seed++) {
      const { found, study } = await search(
        seed,
        made((place) => (place === 17 ? 60 : 100)),
      );
      if (found.best === 17) hits++;
      expect(study.shows).toBe(found.shows);
      expect(found.shows).toBeLessThanOrEqual(135);
      expect(found.places[found.best]?.dropped_after).toBe(null);
    }
    // 40 balls with a spread of 10 x sqrt(2 / 2) of each difference: hardly ever missed.
    expect(hits).toBeGreaterThanOrEqual(99);
  });

  it('tells how far the others lie from it, show by show, with intervals that hold', async () => {
    const few = systems.slice(0, 3);
    let held = 0;
    const times = 400;
    for (let seed = 1; seed <= times; seed++) {
      const study = new Study({ seed, source: made((place) => (place === 2 ? 0 : 100 + 30 * place)) });
      const found = await searchPlace(study, few, labels.slice(0, 3), {
        measure: 'spills_per_hour',
        better: 'less',
        budget: 12,
        confidence: 0.95,
      });
      const [first, , best] = found.places;
      expect([found.best, best?.from_best]).toEqual([2, null]);
      const { mean, low, high } = first?.from_best ?? { mean: null, low: null, high: null };
      expect(mean).toBeCloseTo((first?.figure.mean ?? NaN) - (best?.figure.mean ?? NaN), 9);
      if ((low ?? NaN) <= 100 && 100 <= (high ?? NaN)) held++;
    }
    expect(Math.abs(held / times - 0.95)).toBeLessThan(3 * Math.sqrt((0.95 * 0.05) / times));
  });

  it('says how much better a place must be not to be overlooked', async () => {
    // Independent luck of 10 on each side and 2 shows in the first round: 1.699 (29 degrees) x 10 x sqrt(2 / 2) = 17.
    let sum = 0;
    for (let seed = 1; seed <= 200; seed++)
      sum +=
        (
          await search(
            seed,
            made(() => 100),
          )
        ).found.overlooks ?? NaN;
    expect(Math.abs(sum / 200 - 17)).toBeLessThan(0.7);
  });

  it('flatters what it finds when all places are alike, which other shows do not', async () => {
    let seen = 0;
    let afresh = 0;
    let alike = 0;
    const times = 300;
    for (let seed = 1; seed <= times; seed++) {
      const { found, study } = await search(
        seed,
        made(() => 100),
      );
      const best = systems[found.best]!;
      seen += (found.places[found.best]?.figure.mean ?? NaN) / times;
      await study.simulate([best], 4);
      afresh += study.column(best, 'spills_per_hour', 4).reduce((a, b) => a + b, 0) / 4 / times;
      if (found.as_good.length > 1) alike++;
      expect(found.as_good).toContain(best.label);
    }
    // Three standard errors of the mean of 4 shows over 300 searches: 22.4 / sqrt(1,200) x 3 = 1.94.
    expect(Math.abs(afresh - 100)).toBeLessThan(1.94);
    expect(seen).toBeLessThan(98);
    // The four finalists are alike: mostly it says so.
    expect(alike / times).toBeGreaterThan(0.9);
  });

  it('gives figures of places whose intervals hold them', async () => {
    let held = 0;
    let all = 0;
    for (let seed = 1; seed <= 100; seed++) {
      const { found } = await search(
        seed,
        made((place) => (place < 4 ? 50 : 100 + place)),
      );
      // The finalists are the same four each time, so nothing is chosen by luck but their order; the shared luck of the
      // shows is in the level of all figures and cancels in their differences.
      const level = found.places.slice(0, 4).reduce((sum, { figure }) => sum + (figure.mean ?? NaN) / 4, 0);
      for (const [i, { figure }] of found.places.entries()) {
        if (i < 4 || found.places[i]?.dropped_after !== 2) continue;
        const shift = 50 - level;
        all++;
        if ((figure.low ?? NaN) + shift <= 100 + i && 100 + i <= (figure.high ?? NaN) + shift) held++;
      }
    }
    expect(all).toBeGreaterThan(1000);
    expect(held / all).toBeGreaterThan(0.92);
  });
});
