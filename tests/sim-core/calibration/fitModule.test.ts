import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import {
  buildDistribution,
  countedFigures,
  fitModule,
  parseScenario,
  poolByDesign,
  runningTime,
  scenarioFigures,
  stream,
  toCounted,
} from '../../../packages/sim-core/src/index.js';
import type { ModuleRecord, StopSeen } from '../../../packages/sim-core/src/logs/index.js';
import { benchRecord } from './benchRecord.js';

/** A bench record of an hour, with what is given in place of nothing. */
function bench(parts: Partial<ModuleRecord> = {}): ModuleRecord {
  return {
    module: 'lift',
    where: 'bench',
    watched: [{ from: 0, to: 3600 }],
    batches: [],
    stops: [],
    spills: [],
    ...parts,
  };
}

const jam = (from: number, cleared: number | null, more: Partial<StopSeen> = {}): StopSeen => ({
  cause: 'jam',
  from,
  cleared,
  ...more,
});

describe('running time', () => {
  it('leaves out stops and breaks, by hand', () => {
    // Watched 0 to 100 and 200 to 300; stopped 50 to 80, and from 290 to the end.
    const record = bench({
      watched: [
        { from: 0, to: 100 },
        { from: 200, to: 300 },
      ],
      stops: [jam(50, 80), jam(290, null)],
    });
    expect(runningTime(record)).toEqual({
      ran: [
        { from: 0, to: 50 },
        { from: 80, to: 100 },
        { from: 200, to: 290 },
      ],
      runningSeconds: 160,
      watchedSeconds: 200,
    });
  });

  it('takes a stop over a break as ending with the watching before it and beginning with that after it', () => {
    const record = bench({
      watched: [
        { from: 0, to: 100 },
        { from: 200, to: 300 },
      ],
      stops: [jam(90, 230)],
    });
    expect(runningTime(record).runningSeconds).toBe(90 + 70);
  });
});

describe('cycle times', () => {
  it('uses only gaps with nothing between them, by hand', () => {
    // Batches at 3, 6, [stop 7 to 20], 25, 28: gaps 3 and 3; from 6 to 25 there was a stop.
    const record = bench({
      batches: [3, 6, 25, 28].map((at) => ({ at, balls: 1 })),
      stops: [jam(7, 20)],
    });
    const { cycle } = fitModule(record);
    expect(cycle?.seconds).toEqual([3, 3]);
    expect(cycle?.mean).toMatchObject({ value: 3, n: 2 });
  });

  it('tells cycles without a batch from gaps near whole multiples, and leaves out what is between', () => {
    // Ten gaps of 3 s, one of 6 s (one cycle without a batch), one of 9 s (two), one of 4.5 s (neither), one of 3 s.
    const gaps = [3, 3, 3, 3, 3, 6, 3, 3, 9, 3, 3, 3, 4.5, 3];
    let at = 0;
    const batches = [{ at: 0, balls: 2 }, ...gaps.map((gap) => ({ at: (at += gap), balls: 2 }))];
    const { cycle, batch, notes } = fitModule(bench({ batches }));
    expect(cycle?.gaps).toMatchObject({ skipped: 3, cycles: 11 + 2 + 3, regular: true });
    expect(cycle?.gaps.leftOut).toEqual([{ record: 0, at: 49.5, seconds: 4.5, why: 'between whole cycles' }]);
    // The 13 batches that end a time used: 26 balls of (11 + 2 + 3) x 2 reached for. The first batch ends none.
    expect(batch?.catch).toMatchObject({ of: 32, balls: 26 });
    expect(notes.join(' ')).toMatch(/3 cycles without a batch/);
    expect(notes.join(' ')).toMatch(/left out \(4.5 s ending at 49.5 s, between whole cycles\)/);
  });

  it('finds the single cycle when most catches fail', () => {
    // Catch 0.4, one ball: gaps are geometric, their middle is two cycles. The true catch and cycle must come out.
    const uniform = stream({ seed: 3, replication: 0, place: null, purpose: 'catch' });
    const record = benchRecord(
      { seconds: 7200, cycle: { family: 'normal', mean: 5, cv: 0.02 }, batch: 1, catch: 0.4 },
      uniform,
    );
    const { cycle, batch } = fitModule(record);
    expect(Math.abs((cycle?.mean.value ?? NaN) - 5)).toBeLessThan(0.05);
    expect(batch?.catch?.exact.low).toBeLessThan(0.4);
    expect(batch?.catch?.exact.high).toBeGreaterThan(0.4);
  });

  it('bears times typed to the whole second', () => {
    const uniform = stream({ seed: 3, replication: 0, place: null, purpose: 'typed' });
    const exact = benchRecord(
      { seconds: 3600, cycle: { family: 'normal', mean: 3.3, cv: 0.03 }, batch: 1, catch: 0.9 },
      uniform,
    );
    const typed = {
      ...exact,
      batches: exact.batches.map(({ at, balls }) => ({ at: Math.round(at), balls })),
    };
    const { cycle, batch } = fitModule(typed, { samples: 0 });
    expect(cycle?.gaps.leftOut).toEqual([]);
    expect(Math.abs((cycle?.mean.value ?? NaN) - 3.3)).toBeLessThan(0.05);
    // What the exact times tell: no cycle more or less than a few in a thousand.
    const told = fitModule(exact, { samples: 0 }).batch?.catch?.chance.value ?? NaN;
    expect(Math.abs((batch?.catch?.chance.value ?? NaN) - told)).toBeLessThan(0.003);
    // And that is the truth, 0.9, within four standard errors of 0.009.
    expect(Math.abs(told - 0.9)).toBeLessThan(0.036);
  });

  it('does not split the times of a module that is not regular', () => {
    const uniform = stream({ seed: 3, replication: 0, place: null, purpose: 'irregular' });
    const record = benchRecord({ seconds: 7200, cycle: { family: 'lognormal', mean: 20, cv: 0.6 } }, uniform);
    const { cycle, notes } = fitModule(record);
    expect(cycle?.gaps.regular).toBe(false);
    expect(cycle?.gaps.skipped).toBe(0);
    expect(notes.join(' ')).toMatch(/vary too much/);
  });

  it('does not tell the catch from a show', () => {
    const batches = [3, 6, 9].map((at) => ({ at, balls: 2 }));
    const { batch, notes } = fitModule(bench({ where: 'show', batches }));
    expect(batch?.catch).toBeNull();
    expect(notes.join(' ')).toMatch(/cannot be told from a show/);
  });
});

describe('stops', () => {
  it('counts over running time, exactly as published', () => {
    // Published in the NIST handbook, 8.4.5.1: 2 failures in 800 h, 90 %: 1 / rate from 127 to 2251 h. Here in seconds.
    const record = bench({ watched: [{ from: 0, to: 802 }], stops: [jam(100, 101), jam(300, 301)] });
    const [cause] = fitModule(record, { confidence: 0.9 }).causes;
    expect(cause?.over).toBe(800);
    expect(1 / (cause?.exact.high ?? NaN)).toBeCloseTo(127.068968, 4);
    expect(1 / (cause?.exact.low ?? NaN)).toBeCloseTo(2251.22861, 3);
    expect(cause?.trigger).toEqual({ kind: 'running', time: { family: 'exponential', mean: 400 } });
  });

  it('gives an upper limit and the rule of three when none was seen', () => {
    const { anyStop, notes, causes } = fitModule(bench(), { causes: ['jam'] });
    // 3 in one hour; exactly -ln 0.05 = 2.996.
    expect((anyStop.ruleOfThree ?? NaN) * 3600).toBeCloseTo(3, 10);
    expect(anyStop.exact.high * 3600).toBeCloseTo(2.9957, 4);
    expect(notes.join(' ')).toMatch(/No stop was seen in 1 h of running/);
    // Half a stop in an hour, for want of better.
    expect(causes[0]?.trigger).toEqual({ kind: 'running', time: { family: 'exponential', mean: 7200 } });
  });

  it('keeps the clock of each cause over the stops of the others, and censors what is left', () => {
    // Six jams, about 100 s of running apart, cleared after 8 to 10 s, then a flat battery for 20 s.
    const stops = [1, 2, 3, 4, 5, 6].map((i) => jam(110 * i - 10 + (i % 3), 110 * i));
    const battery = { cause: 'battery', from: 720, cleared: 740 };
    const { causes } = fitModule(bench({ watched: [{ from: 0, to: 760 }], stops: [...stops, battery] }));
    const [first, second] = causes;
    expect([first?.cause, first?.stops, second?.cause, second?.stops]).toEqual(['jam', 6, 'battery', 1]);
    // 760 - 54 - 20 s of running (10 s less i mod 3 each: 9, 8, 10, 9, 8, 10); so even that it must be wear.
    expect(first?.over).toBe(686);
    expect(first?.wear?.shape).toBeGreaterThan(5);
    expect(first?.trigger).toMatchObject({ kind: 'running', time: { family: 'weibull' } });
  });

  it('counts by cycle or by ball when asked', () => {
    const batches = Array.from({ length: 300 }, (_, i) => ({ at: 10 * i + 10, balls: 4 }));
    const record = bench({ watched: [{ from: 0, to: 3000 }], batches, stops: [jam(1500, 1500)] });
    const byCycle = fitModule(record, { clocks: { jam: 'per_cycle' } }).causes[0];
    expect(byCycle?.trigger).toEqual({ kind: 'per_cycle', probability: 1 / 300 });
    const byBall = fitModule(record, { clocks: { jam: 'per_ball' } }).causes[0];
    expect(byBall?.trigger).toEqual({ kind: 'per_ball', probability: 1 / 1200 });
    expect(() => fitModule(bench({ stops: [jam(1, 2)] }), { clocks: { jam: 'per_cycle' } })).toThrow(
      /cycles and balls are not known/,
    );
  });

  it('joins bench and show, each with a clock of its own', () => {
    const one = bench({ stops: [jam(1000, 1060)] });
    const two = bench({ where: 'show', stops: [jam(500, 560), jam(2000, 2120)] });
    const fit = fitModule([one, two]);
    expect([fit.records, fit.runningSeconds, fit.causes[0]?.stops]).toEqual([2, 7200 - 240, 3]);
    expect(() => fitModule([one, { ...two, module: 'other' }])).toThrow(/all of lift/);
    expect(() => fitModule([])).toThrow(/at least one record/);
  });
});

describe('clear times', () => {
  it('says little of few, honestly', () => {
    expect(fitModule(bench({ stops: [jam(3000, null)] })).causes[0]?.clear).toBeNull();
    const one = fitModule(bench({ stops: [jam(100, 160)] }));
    expect(one.causes[0]?.clear?.spec).toEqual({ family: 'exponential', mean: 60 });
    // One exponential time t: limits t / 3.689 and t / 0.02532.
    expect(one.causes[0]?.clear?.mean.low).toBeCloseTo(60 / 3.6889, 2);
    expect((one.causes[0]?.clear?.mean.high ?? NaN) / (60 / 0.0253178)).toBeCloseTo(1, 4);
    expect(one.notes.join(' ')).toMatch(/1 clear time says nothing of how much such times vary/);
    const two = fitModule(bench({ stops: [jam(100, 160), jam(200, 300)] }));
    expect(two.causes[0]?.clear?.spec).toEqual({ family: 'exponential', mean: 80 });
  });

  it('takes those of all causes together when one has few', () => {
    const stops = [1, 2, 3, 4, 5, 6].map((i) => jam(500 * i, 500 * i + 20 * i));
    const { causes, notes } = fitModule(
      bench({ stops: [...stops, { cause: 'battery', from: 3500, cleared: 3560 }] }),
    );
    const battery = causes.find(({ cause }) => cause === 'battery');
    expect([battery?.clear?.pooled, battery?.clear?.seconds.length]).toEqual([true, 7]);
    expect(causes[0]?.clear?.pooled).toBe(false);
    expect(notes.join(' ')).toMatch(/battery: too few clear times of its own/);
  });

  it('takes off the way there in a show, and asks for it', () => {
    const record = bench({ where: 'show', stops: [jam(100, 190)] });
    expect(fitModule(record, { reachSeconds: 30 }).causes[0]?.clear?.mean.value).toBe(60);
    expect(fitModule(record).notes.join(' ')).toMatch(/it counts twice/);
  });

  it('counts a stop not seen to its end as longer than seen', () => {
    const stops = [jam(100, 140), jam(400, 460), jam(900, 950), jam(1500, 1580)];
    const whole = fitModule(bench({ stops })).causes[0]?.clear;
    const open = fitModule(bench({ stops: [...stops, jam(3300, null)] })).causes[0]?.clear;
    expect(open?.open).toEqual([300]);
    expect(open?.mean.value ?? NaN).toBeGreaterThan(whole?.mean.value ?? NaN);
  });
});

describe('crowding and drift', () => {
  it('takes the time at each level, by hand', () => {
    // Low for 1000 s, high for 500 s, low for 500 s. Stops: 1 while low, 3 while high (one with its own level).
    const record = bench({
      watched: [{ from: 0, to: 2000 }],
      batches: [
        { at: 0, balls: 1, level: 0.3 },
        { at: 1000, balls: 1, level: 0.8 },
        { at: 1500, balls: 1, level: 0.2 },
      ],
      stops: [jam(400, 400), jam(1100, 1100), jam(1200, 1200, { level: 0.9 }), jam(1300, 1300)],
    });
    const crowding = fitModule(record).causes[0]?.crowding;
    expect(crowding?.crowded).toEqual({ events: 3, exposure: 500 });
    expect(crowding?.free).toEqual({ events: 1, exposure: 1500 });
    expect(crowding?.times.value).toBeCloseTo(9, 12);
  });

  /** Low for 1000 s with as many stops, high for 500 s, and low again. */
  const levelled = (low: number, high: number): ModuleRecord => {
    const many = (count: number, from: number, seconds: number): StopSeen[] =>
      Array.from({ length: count }, (_, i) => {
        const at = from + (seconds * (i + 0.3 * (i % 3) + 0.1)) / count;
        return jam(at, at + 0.02);
      });
    return bench({
      watched: [{ from: 0, to: 2000 }],
      batches: [
        { at: 0, balls: 1, level: 0.3 },
        { at: 1000, balls: 1, level: 0.8 },
        { at: 1500, balls: 1, level: 0.2 },
      ],
      stops: [...many(low, 0, 1000), ...many(high, 1000, 500)],
    });
  };
  const written = (record: ModuleRecord): string => {
    const fit = fitModule(record);
    const figures = {
      ...scenarioFigures(fit),
      cycle: '1 s',
      basket: 100,
      travel: '1 s',
      counted: countedFigures(toCounted(fit), fit, ['jam']),
    };
    return stringify({
      name: 'x',
      show: { lasts: '1 h' },
      feed: { steady: '0.5 bps' },
      crew: { minders: 1, notice: '1 s', walk: '1 s' },
      modules: { lift: figures },
    });
  };

  it('gives a crowded cause the rate that it has while it is not crowded, by hand', () => {
    // 6 in 1500 s while low, 20 in 500 s while high, each of 0.02 s: ten times as often.
    const [cause] = parseScenario(written(levelled(6, 20))).spec.modules[0]?.stops ?? [];
    expect(cause?.crowded?.times).toBeCloseTo(20 / (500 - 20 * 0.02) / (6 / (1500 - 6 * 0.02)), 3);
    if (cause?.trigger.kind !== 'running') throw new Error('it is not by running time');
    expect(buildDistribution(cause.trigger.time).mean).toBeCloseTo((1500 - 6 * 0.02) / 6, 1);
  });

  it('writes no count of crowding beside a cause that is not said to be crowded', () => {
    const text = written(levelled(15, 5));
    expect(text).not.toContain('crowded');
    // In the words of the file it is in order.
    expect(parseScenario(text).counted?.length).toBe(1);
  });

  it('says that it gets worse, and how fast', () => {
    const uniform = stream({ seed: 8, replication: 0, place: null, purpose: 'warming' });
    // Stops at the square roots of even steps: their number grows with the square of time. Cycles 10 % longer in an hour.
    const stops = Array.from({ length: 30 }, (_, i) => {
      const at = 3600 * Math.sqrt((i + uniform()) / 30);
      return jam(at, at);
    });
    const batches: { at: number; balls: number }[] = [];
    for (let at = 0; at < 3600; at += 8 * (1 + (0.1 * at) / 3600) + 0.1 * uniform())
      batches.push({ at, balls: 1 });
    const { drift, notes } = fitModule(bench({ batches, stops }));
    expect(Math.abs((drift.stops?.power ?? NaN) - 2)).toBeLessThan(0.8);
    expect(Math.abs((drift.cyclePerHour ?? NaN) - 0.095)).toBeLessThan(0.02);
    expect(notes.join(' ')).toMatch(/more often towards the end/);
    expect(notes.join(' ')).toMatch(/cycle time grows by about/);
  });
});

describe('what becomes of a fit', () => {
  const uniform = stream({ seed: 5, replication: 0, place: null, purpose: 'figures' });
  const fit = fitModule(
    benchRecord(
      {
        seconds: 7200,
        cycle: { family: 'lognormal', mean: 4, cv: 0.05 },
        batch: 3,
        catch: 0.95,
        stops: { family: 'exponential', mean: 600 },
        clear: { family: 'lognormal', mean: 60, cv: 0.7 },
      },
      uniform,
    ),
    { samples: 99 },
  );

  it('is a module of a scenario file, basket and travel being told there', () => {
    const text = stringify({
      name: 'Fitted',
      show: { opens: '10:00', lasts: '6 h' },
      charge: 20,
      crew: { minders: 1, notice: '10 s', walk: '10 s' },
      modules: {
        lift: { basket: 100, travel: '5 s', ...scenarioFigures(fit) },
        other: { basket: 100, travel: '5 s', cycle: '1 s' },
      },
    });
    const { spec } = parseScenario(text, 'fitted.yaml');
    const [lift] = spec.modules;
    expect(lift?.batch).toBe(3);
    expect(lift?.catch).toBeCloseTo(fit.batch?.catch?.chance.value ?? NaN, 4);
    expect(lift?.stops[0]?.trigger.kind).toBe('running');
    expect(lift?.cycle.family).toBe(fit.cycle?.spec.family);
  });

  it('says what it was counted from', () => {
    const counted = toCounted(fit);
    expect(counted).toMatchObject({
      module: 'lift',
      cycles: fit.cycle?.seconds.length,
      caught: { of: fit.batch?.catch?.of },
      stops: [{ cause: 'jam', stops: fit.causes[0]?.stops, over: fit.runningSeconds }],
    });
  });

  it('is the same for the same seed', () => {
    const record = bench({ batches: [0, 3, 6.1, 9, 12.2, 15].map((at) => ({ at, balls: 1 })) });
    expect(fitModule(record, { seed: 2 })).toEqual(fitModule(record, { seed: 2 }));
  });

  it('is pooled by design, with a prior that adds up to what is known', () => {
    const copy = (module: string, stops: number) =>
      fitModule({
        ...bench({ stops: Array.from({ length: stops }, (_, i) => jam(100 * i + 50, 100 * i + 50)) }),
        module,
        design: 'screw',
      });
    const fits = [copy('north', 0), copy('south', 9), copy('west', 4), fitModule(bench())];
    const pools = poolByDesign(fits);
    expect(pools.map(({ design, modules }) => [design, modules.length])).toEqual([['screw', 3]]);
    for (const [i, { causes }] of (pools[0]?.modules ?? []).entries()) {
      const [one] = causes;
      const { stops = NaN, over = NaN, prior = { stops: NaN, over: NaN }, pooled } = one ?? {};
      // A gamma prior with the copy's own count has the mean of what is known.
      expect((stops + prior.stops) / (over + prior.over)).toBeCloseTo(pooled?.mean ?? NaN, 10);
      expect(prior.stops).toBeGreaterThan(0);
      const counted = toCounted(fits[i] ?? fit, pools[0]?.modules[i]);
      if (counted.stops.length > 0) expect(counted.stops[0]?.prior).toEqual(prior);
    }
    const drawn = pools[0]?.modules.map(({ causes }) => causes[0]?.pooled.mean ?? NaN) ?? [];
    expect(drawn[0]).toBeGreaterThan(0);
    expect((drawn[1] ?? NaN) * 3600).toBeLessThan(9);
    expect(poolByDesign(fits.slice(0, 2))[0]?.notes.join(' ')).toMatch(/two copies/);
  });
});
