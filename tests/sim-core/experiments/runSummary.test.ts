import { describe, expect, it } from 'vitest';
import { RunSummary } from '../../../packages/sim-core/src/experiments/runSummary.js';
import {
  measurePlan,
  parseScenario,
  PLACES,
  type ReplicationResult,
  type RunEstimates,
  simulate,
} from '../../../packages/sim-core/src/index.js';
import { EVERYTHING } from './everything.js';

const { spec } = parseScenario(EVERYTHING);
const plan = measurePlan(spec);
const MODULES = spec.modules.map(({ id }) => id);
const STAIRS = MODULES.indexOf('stairs');
const real = simulate(spec, { seed: 1, replication: 0, plan });

/** The estimates over shows that are like a real one but for what a test says. */
function over(...changes: Partial<ReplicationResult>[]): RunEstimates {
  const summary = new RunSummary(spec, plan);
  for (const [replication, change] of changes.entries()) summary.add({ ...real, ...change, replication });
  return summary.estimates(0.95);
}

/** A column by module with one value at one place. */
function at(m: number, value: number, length = MODULES.length): Float64Array {
  return Float64Array.from({ length }, (_, i) => (i === m ? value : 0));
}

/** A module's columns of the real show with some replaced. */
const modules = (columns: Partial<ReplicationResult['modules']>): Partial<ReplicationResult> => ({
  modules: { ...real.modules, ...columns },
});

describe('the summary of a run', () => {
  it('adds up what is pulled, sent back and held up, by module and in all', () => {
    const hours = real.measuredSeconds / 3600;
    const estimates = over(
      modules({ pulls: at(STAIRS, 2), pulledShare: at(STAIRS, 0.5), recirculated: at(4, hours * 30) }),
      modules({ pulls: at(STAIRS, 4), pulledShare: at(STAIRS, 0.25), recirculated: at(4, hours * 10) }),
    );
    expect(estimates.pulls_per_show.mean).toBe(3);
    expect(estimates.modules[STAIRS]).toMatchObject({
      pulls_per_show: { mean: 3 },
      pulled_share: { mean: 0.375 },
    });
    expect(estimates.recirculated_per_hour.mean).toBeCloseTo(20, 9);
    expect(estimates.modules[4]?.recirculated_per_hour.mean).toBeCloseTo(20, 9);
  });

  it('counts stops of a module over the hours in which it stands in the loop', () => {
    const hours = real.measuredSeconds / 3600;
    // 40 stops in half the time and 50 in a quarter of it: 90 stops in 0.75 of a show.
    const { stops_per_hour: all, stops_per_hour_in_loop: own } = over(
      modules({ stops: at(STAIRS, 40), pulledShare: at(STAIRS, 0.5) }),
      modules({ stops: at(STAIRS, 50), pulledShare: at(STAIRS, 0.75) }),
    ).modules[STAIRS] as RunEstimates['modules'][number];
    expect(all.mean).toBeCloseTo(45 / hours, 9);
    expect(own.mean).toBeCloseTo(90 / (0.75 * hours), 9);
  });

  it('counts stops of a spare over the hours of its use, and adds them to those of all modules', () => {
    const hours = real.measuredSeconds / 3600;
    const used = (share: number, stops: number): Partial<ReplicationResult> => ({
      ...modules({ stops: at(STAIRS, 0) }),
      spares: {
        inUseShare: at(0, share, 1),
        stops: at(0, stops, 1),
        stoppedShare: at(0, share / 10, 1),
      },
    });
    const { spares, stops_per_hour: all } = over(used(0.5, 30), used(0, 0), used(0.25, 15));
    expect(spares[0]).toMatchObject({ id: 'second-stairs', title: 'Second stairs', builder: 'Maudlin' });
    expect(spares[0]?.stops_per_hour_in_loop).toMatchObject({ replications: 2 });
    expect(spares[0]?.stops_per_hour_in_loop.mean).toBeCloseTo(45 / (0.75 * hours), 9);
    expect(spares[0]?.stops_per_hour.mean).toBeCloseTo(15 / hours, 9);
    expect(all.mean).toBeCloseTo(15 / hours, 9);
  });

  it('says how often, when and where the loop locks: in the first show that does', () => {
    const lockedAt = (time: number, ...heldUp: number[]): Partial<ReplicationResult> => ({
      locked: { at: time, heldUp: Int32Array.from(heldUp) },
    });
    const { locked } = over({ locked: null }, lockedAt(600, 1, 2), lockedAt(1200, 5), { locked: null });
    expect(locked).toMatchObject({
      show: { mean: 0.5, replications: 4 },
      time_s: { mean: 900, replications: 2 },
      modules: ['stairs', 'mill'],
    });
    expect(locked.show.low).toBeLessThan(0.5);
    expect(locked.show.high).toBeGreaterThan(0.5);
    // Clopper and Pearson, all of four: from (alpha / 2)^(1/4) = 0.025^(1/4) = 0.397635 to 1.
    const always = over(...[1, 2, 3, 4].map((hour) => lockedAt(3600 * hour, 0))).locked;
    expect([always.show.low?.toFixed(6), always.show.high]).toEqual(['0.397635', 1]);
    const { show, ...rest } = over({ locked: null }, { locked: null }).locked;
    expect(show).toMatchObject({ mean: 0, low: 0 });
    expect(show.high).toBeGreaterThan(0.5);
    expect(rest).toMatchObject({ time_s: { mean: null }, modules: [] });
  });

  it('says what came from the box, what is left, and how often nothing is', () => {
    const estimates = over({ toppedUp: 30, boxLeft: 0 }, { toppedUp: 10, boxLeft: 20 });
    expect(estimates).toMatchObject({
      balls_topped_up_per_show: { mean: 20 },
      box_left_balls: { mean: 10, low: 0, high: 30 },
      box_empty_risk: { mean: 0.5 },
    });
  });

  it('has no box where the scenario has none, and zero for certain what cannot happen', () => {
    const { topUp, ...crew } = spec.crew;
    expect(topUp).toBeDefined();
    const plain = {
      ...spec,
      crew,
      spares: [],
      modules: spec.modules.map((module) => {
        const { pull: _, lever: __, ...rest } = module;
        return { ...rest, basket: { ...module.basket, whenFull: { kind: 'spill' as const } } };
      }),
    };
    const summary = new RunSummary(plain, plan);
    for (let replication = 0; replication < 3; replication++)
      summary.add(simulate(plain, { seed: 1, replication, plan }));
    const estimates = summary.estimates(0.95);
    const certain = { mean: 0, low: 0, high: 0 };
    expect(estimates).toMatchObject({
      box_left_balls: null,
      box_empty_risk: null,
      balls_topped_up_per_show: certain,
      pulls_per_show: certain,
      returned_per_hour: certain,
      recirculated_per_hour: certain,
      locked: { show: certain, time_s: { mean: null }, modules: [] },
      spares: [],
    });
    for (const { held_up_share, pulled_share, pulls_per_show, returned_per_hour } of estimates.modules)
      expect({ held_up_share, pulled_share, pulls_per_show, returned_per_hour }).toMatchObject({
        held_up_share: certain,
        pulled_share: certain,
        pulls_per_show: certain,
        returned_per_hour: certain,
      });
  });

  it('has every place a ball can be in, which together hold all balls and the box at the end of every slice', () => {
    const { balls_by_place: places, slice_ends_s: ends } = over({}).series;
    expect(Object.keys(places)).toEqual([...PLACES]);
    for (const k of ends.keys())
      expect(PLACES.reduce((sum, place) => sum + (places[place][k]?.mean ?? NaN), 0)).toBeCloseTo(
        240 + 30,
        9,
      );
  });
});
