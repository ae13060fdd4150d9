import { describe, expect, it } from 'vitest';
import {
  byBuilder,
  debriefAnswer,
  type ModuleDebrief,
  moduleDebriefs,
  type ModuleRecord,
  nextCount,
} from '@lapwright/sim-core';
import jstat from 'jstat';
import { stream } from '../../../packages/sim-core/src/random/index.js';

/** A record with these stops, each a minute long. */
function record(module: string, builder: string, froms: readonly number[], watched = 6 * 3600): ModuleRecord {
  return {
    module,
    builder,
    where: 'show',
    watched: [{ from: 0, to: watched }],
    batches: [],
    stops: froms.map((from) => ({ cause: 'jam', from, cleared: from + 60 })),
    spills: [],
  };
}

describe('stops of another day', () => {
  it('have the quantiles of the negative binomial distribution', () => {
    // Its distribution function is an incomplete beta function (Abramowitz & Stegun 26.5.26), here that of the library jStat.
    const quantile = (p: number, events: number, times: number): number => {
      let k = 0;
      while (jstat.beta.cdf(1 / (1 + times), events + 0.5, k + 1) < p) k++;
      return k;
    };
    for (const [events, times] of [
      [0, 1],
      [3, 1],
      [24, 1],
      [7, 0.5],
      [2, 6],
    ] as const) {
      expect(nextCount(events, 0.95, times)).toEqual({
        low: quantile(0.025, events, times),
        high: quantile(0.975, events, times),
        confidence: 0.95,
      });
    }
  });

  it('hold what they promise over days of all kinds', () => {
    const luck = stream({ seed: 7, replication: 0, place: null, purpose: 'test' });
    // Stops of a day as gaps of exponential length.
    const day = (mean: number): number => {
      let count = 0;
      for (let left = mean + Math.log(luck()); left > 0; left += Math.log(luck())) count++;
      return count;
    };
    let held = 0;
    const trials = 2000;
    for (let t = 0; t < trials; t++) {
      const mean = 30 * luck();
      const { low, high } = nextCount(day(mean), 0.95);
      const next = day(mean);
      if (next >= low && next <= high) held++;
    }
    // Whole numbers make it hold more often; less often than 95 % by more than three standard errors would be a fault.
    expect(held).toBeGreaterThan(trials * 0.95 - 3 * Math.sqrt(trials * 0.95 * 0.05));
  });
});

describe('a module after the show', () => {
  it('is told with pencil and paper', () => {
    // Watched from 0 to 100 min and from 120 to 180 min; two stops, the second open at the end; 10 balls fell.
    const [told] = moduleDebriefs([
      {
        module: 'tipper',
        builder: 'Perrin',
        where: 'show',
        watched: [
          { from: 0, to: 6000 },
          { from: 7200, to: 10_800 },
        ],
        batches: [],
        stops: [
          { cause: 'jam', from: 5940, cleared: 7320 },
          { cause: 'flat battery', from: 10_500, cleared: null },
        ],
        spills: [
          { at: 5990, balls: 6 },
          { at: 8000, balls: 4 },
        ],
      },
    ]);
    // 60 s before the break, 120 s behind it, 300 s at the end.
    expect(told).toMatchObject({
      module: 'tipper',
      builder: 'Perrin',
      watched_s: 9600,
      stopped_s: 480,
      running_s: 9120,
      longest_s: 300,
      stops: 2,
      open: 1,
      spilled: 10,
      spilled_while_stopped: 6,
      causes: [
        { cause: 'jam', stops: 1, stopped_s: 180 },
        { cause: 'flat battery', stops: 1, stopped_s: 300 },
      ],
      trend: null,
      trend_chance: null,
      among_others: 'cannot be told',
    });
    expect(told?.stops_per_hour?.rate).toBeCloseTo(2 / (9120 / 3600), 12);
    // Exact limits for 2 events: half the quantiles 0.2422 and 14.449 of chi-square (4 and 6 degrees: 0.4844, 14.449; tables).
    expect((told?.stops_per_hour?.low ?? NaN) * (9120 / 3600)).toBeCloseTo(0.4844 / 2, 4);
    expect((told?.stops_per_hour?.high ?? NaN) * (9120 / 3600)).toBeCloseTo(14.449 / 2, 3);
  });

  it('has a trend when its stops come closer together, on the clock of its running', () => {
    const trendOf = (froms: readonly number[]): ModuleDebrief['trend'] | undefined =>
      moduleDebriefs([record('tipper', 'Perrin', froms)])[0]?.trend;
    expect(trendOf([12_000, 15_000, 17_000, 18_500, 19_500, 20_200, 20_700, 21_100])).toBe('more often');
    expect(trendOf([200, 700, 1400, 2200, 3500, 5000, 7000])).toBe('less often');
    expect(trendOf([2500, 5500, 9000, 11_500, 15_000, 18_000])).toBeNull();
    // Four are too few to speak of it.
    expect(trendOf([20_000, 20_300, 20_600, 20_900])).toBeNull();
  });

  it('stands out among others only for sure', () => {
    const quiet = ['a', 'b', 'c', 'd', 'e'].map((id, i) => record(id, 'Maudlin', [1000 * (i + 1)]));
    const wild = record(
      'wild',
      'Quillon',
      Array.from({ length: 25 }, (_, i) => 500 + 800 * i),
    );
    const told = moduleDebriefs([...quiet, wild]);
    expect(
      told.filter(({ among_others: among }) => among === 'more often').map(({ module }) => module),
    ).toEqual(['wild']);
    // Three against one each is luck.
    const tame = moduleDebriefs([...quiet, record('tame', 'Quillon', [100, 5000, 9000])]);
    expect(tame.every(({ among_others: among }) => among === 'cannot be told')).toBe(true);
  });

  it('among modules all alike names none in 19 of 20 shows at least', () => {
    const luck = stream({ seed: 8, replication: 0, place: null, purpose: 'test' });
    const trials = 300;
    let named = 0;
    for (let t = 0; t < trials; t++) {
      const records = Array.from({ length: 12 }, (_, m) => {
        const froms: number[] = [];
        for (let at = -7200 * Math.log(luck()); at < 21_000; at += 120 - 7200 * Math.log(luck()))
          froms.push(at);
        return record(`m${m}`, 'Perrin', froms);
      });
      if (moduleDebriefs(records).some(({ among_others: among }) => among !== 'cannot be told')) named++;
    }
    // Exact limits err on the careful side.
    expect(named).toBeLessThanOrEqual(0.05 * trials + 3 * Math.sqrt(0.05 * 0.95 * trials));
  });
});

describe('the pages', () => {
  const wild = record(
    'wild',
    'Quillon',
    Array.from({ length: 25 }, (_, i) => 500 + 800 * i),
  );
  const modules = moduleDebriefs([
    wild,
    record('calm', 'Perrin', []),
    { ...record('lone', '', []), builder: undefined } as never,
  ]);

  it('are one for each builder, in no order of merit', () => {
    expect(byBuilder(modules).map(({ builder }) => builder)).toEqual(['Perrin', 'Quillon', null]);
  });

  it('are fair about small numbers', () => {
    const { sentence, details } = debriefAnswer(modules, { name: 'Saturday', gains: null });
    expect(sentence).toContain('25 stops of 1 of 3 modules');
    const text = JSON.stringify(details['pages']);
    // The rule of three and its like: 6 h without a stop leave up to -ln(0.05) / 6 h = 0.5 an hour.
    expect(text).toContain(
      'No stop in 6 h of running. That is good, and no proof: it may stop up to 0.5 times an hour',
    );
    expect(text).toContain('would be no surprise');
  });

  it('say when nothing was logged', () => {
    expect(debriefAnswer([], { name: 'Saturday', gains: null })).toMatchObject({
      verdict: 'nothing was logged',
      pictures: [],
      tables: [],
      next: [],
    });
  });
});
