import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { drawParameters } from '../../../packages/sim-core/src/doubt/index.js';
import {
  houseRules,
  measureIndex,
  MEASURES,
  showsHere,
  type ShowSource,
  type StudyTask,
} from '../../../packages/sim-core/src/experiments/index.js';
import type { LoopSpec, ModuleCounted, ModuleSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { gammaQuantile } from '../../../packages/sim-core/src/numerics/index.js';
import { stream } from '../../../packages/sim-core/src/random/index.js';
import { benchNext, judgeInDoubt } from '../../../packages/sim-core/src/studies/doubt/index.js';
import { lookInDoubt, Study, system } from '../../../packages/sim-core/src/studies/index.js';
import { holds, loop, module, seconds } from '../../build.js';

const HOUR = 3600;

function stair(id: string): ModuleSpec {
  return module(id, {
    basket: holds(50),
    cycle: seconds(0.9),
    stops: [
      {
        id: 'jam',
        trigger: { kind: 'running', time: { family: 'exponential', mean: 1200 } },
        drops: 0,
        remedy: { kind: 'itself', time: seconds(30) },
      },
    ],
  });
}

const jams = (id: string, stops: number, over: number): ModuleCounted => ({
  module: id,
  stops: [{ cause: 'jam', stops, over, clears: 0 }],
});

/** Stops an hour of a module as a task has them drawn. */
function rateOf({ spec, seed, replication, doubt }: StudyTask, id: string): number {
  if (doubt === undefined) throw new Error('nothing in doubt');
  const draw = Math.floor(replication / doubt.showsPerDraw);
  const drawn = drawParameters(spec, doubt.counted, { seed, draw }).modules.find((one) => one.id === id);
  const trigger = drawn?.stops[0]?.trigger;
  return trigger?.kind === 'running' && trigger.time.family === 'exponential'
    ? HOUR / trigger.time.mean
    : NaN;
}

/** Shows in which the balls spilled per hour are made up. */
function made(spills: (task: StudyTask, luck: () => number) => number): ShowSource {
  return {
    size: 1,
    run: (task) => {
      const { seed, replication } = task;
      const row = MEASURES.map(() => 0);
      row[measureIndex('spills_per_hour')] = spills(
        task,
        stream({ seed, replication, place: null, purpose: 'made' }),
      );
      return Promise.resolve(row);
    },
    close: () => Promise.resolve(),
  };
}

function poisson(mean: number, u: () => number): number {
  let count = 0;
  for (let product = u(); product > Math.exp(-mean); product *= u()) count++;
  return count;
}

describe('shows of a system in doubt', () => {
  const spec: LoopSpec = {
    ...loop([stair('a'), stair('b')], [15, 15]),
    show: { seconds: HOUR, warmUpSeconds: 0 },
  };
  const counted = [jams('a', 3, 3300)];

  it('have their own key, and two in a row the same draw', async () => {
    const plain = system('plain', spec);
    const doubtful = system('in doubt', spec, undefined, { counted, showsPerDraw: 2 });
    const other = system('in doubt', spec, undefined, { counted: [jams('a', 4, 3300)], showsPerDraw: 2 });
    expect(new Set([plain.key, doubtful.key, other.key]).size).toBe(3);
    const study = new Study({ seed: 7, source: showsHere() });
    await study.simulate([doubtful], 4);
    for (const [replication, draw] of [0, 0, 1, 1].entries()) {
      const drawn = drawParameters(spec, counted, { seed: 7, draw });
      const alone = system('drawn by hand', drawn);
      await study.simulate([alone], 1, replication);
      expect(study.row(doubtful, replication)).toEqual(study.row(alone, replication));
    }
  });
});

describe('the interval for the real loop, of which only a count is known', () => {
  /** Studies in which the real rate is drawn, then what an hour shows of it, then the draws and shows of the study. */
  function studies(hours: number, luck: number, count = 1000): { below: number; above: number } {
    const u = stream({ seed: 31, replication: 0, place: null, purpose: `${hours} ${luck}` });
    const [rule] = houseRules({ longest_lap: 100 });
    const missed = { below: 0, above: 0 };
    for (let study = 0; study < count; study++) {
      const real = Math.exp(u() * Math.log(8));
      const stops = poisson(real * hours, u);
      const shows = Array.from({ length: 200 }, () => {
        const rate = gammaQuantile(u(), stops + 0.5) / hours;
        // A show of six hours: its stops, and luck of other kinds that is skewed as spills are.
        return [0, 1].map(() => poisson(6 * rate, u) / 6 + luck * (-Math.log(u()) - 1) + 100);
      }).flat();
      const { judgement } = judgeInDoubt(rule ? [rule] : [], () => shows, 2, 6, 0.95);
      const { low, high } = judgement.rules[0]?.estimate ?? { low: null, high: null };
      if (real + 100 < (low ?? NaN)) missed.below++;
      if (real + 100 > (high ?? NaN)) missed.above++;
    }
    return missed;
  }

  it.each([
    ['an hour, a show of stops only', 1, 0],
    ['an hour, luck of other kinds', 1, 2],
    ['eight hours', 8, 0],
  ])('holds it in 93 to 97 of 100 studies: %s', (_, hours, luck) => {
    const { below, above } = studies(hours, luck);
    expect(below + above).toBeGreaterThanOrEqual(30);
    expect(below + above).toBeLessThanOrEqual(70);
    // Each side decides a verdict: 2.5 %, and three standard errors of 0.5 %.
    expect(Math.max(below, above)).toBeLessThanOrEqual(40);
  });

  it('holds it no less often when luck drowns what the counts leave open', () => {
    const { below, above } = studies(1, 10, 400);
    expect(below + above).toBeLessThanOrEqual(0.07 * 400);
  });
});

describe('a loop looked at in doubt', () => {
  const spec: LoopSpec = {
    ...loop([stair('a'), stair('b'), stair('c')], [10, 10, 10]),
    show: { seconds: 6 * HOUR, warmUpSeconds: 0 },
  };
  const counted = [jams('a', 3, 3300), jams('b', 5, 9 * HOUR), jams('elsewhere', 1, 100)];
  const rules = houseRules({ spills_per_hour: 50 });

  async function look(spills: (task: StudyTask, luck: () => number) => number, which = counted) {
    const study = new Study({ seed: 5, source: made(spills) });
    return lookInDoubt(study, 'the loop', spec, which, { rules, confidence: 0.95 });
  }

  it('says how many such modules keep the rule: by the posterior, when there is no luck', async () => {
    // Ten balls for each stop of a: the rule asks for at most 5 stops an hour.
    const found = await look((task) => 10 * rateOf(task, 'a'));
    const chance = jstat.gamma.cdf(5 / HOUR, 3.5, 1 / 3300);
    const error = Math.sqrt((chance * (1 - chance)) / 200);
    expect(Math.abs((found?.rules[0]?.keeps ?? NaN) - chance)).toBeLessThan(3 * error);
    expect(found?.rules[0]?.few_data).toEqual({ mean: 1, low: 1, high: 1 });
    expect(found?.judgement.verdict).toBe('undecided');
    expect(found?.counted).toEqual([
      { module: 'a', counted_s: 3300 },
      { module: 'b', counted_s: 9 * HOUR },
    ]);
  });

  it('splits what comes from few data and what from luck', async () => {
    // Variance between: 100 x that of the rate, 3.5 over (3300 s)^2; luck: uniform over 60, variance 300.
    const found = await look((task, luck) => 10 * rateOf(task, 'a') + 60 * luck());
    const between = 100 * 3.5 * (HOUR / 3300) ** 2;
    const { mean = NaN, low = NaN, high = NaN } = found?.rules[0]?.few_data ?? {};
    expect(low).toBeLessThan(between / (between + 300));
    expect(high).toBeGreaterThan(between / (between + 300));
    expect(mean).toBeGreaterThan(low);
    expect(found?.rules[0]?.sd_luck).toBeCloseTo(Math.sqrt(300), -1);
  });

  it('names the module to count for another hour', async () => {
    // b matters ten times as much, but was counted for nine hours: 5.5 / 81 of variance x 100 against 3.5 x (3600 / 3300)^2 x 1.
    const found = await look((task, luck) => rateOf(task, 'a') + 10 * rateOf(task, 'b') + luck());
    const [a, b] = [3.5 * (HOUR / 3300) ** 2, (100 * 5.5) / 81];
    expect(found?.bench.best).toBe('a');
    const shareOf = (id: string): number => found?.bench.gains.find((one) => one.module === id)?.share ?? NaN;
    expect(Math.abs(shareOf('a') - a / (a + b))).toBeLessThan(0.15);
    const [first] = found?.bench.gains ?? [];
    expect(first?.takes_off).toBeCloseTo((shareOf('a') * HOUR) / (HOUR + 3300), 12);
  });

  it('says that it cannot be told when nothing stands out', async () => {
    const found = await look((_, luck) => 100 * luck());
    expect(found?.bench.best).toBe(null);
    expect(found?.rules[0]?.few_data?.low).toBe(0);
  });

  it('is none where nothing was counted', async () => {
    expect(await look(() => 1, [jams('elsewhere', 1, 100)])).toBe(null);
  });

  it('says no more of balls that fall many at a time than of a few such shows', async () => {
    // 3 of 200 draws see 1000 balls an hour: a t interval would end near 33, exact limits of 3 / 200 times the size do not.
    const found = await look(({ replication }) => ([8, 150, 301].includes(replication) ? 1000 : 0));
    const [rule] = found?.judgement.rules ?? [];
    // Clopper-Pearson of 3 in 200 at 97.5 %: 0.0480 (from the beta quantile of jStat), times the mean size of three, 500 each.
    const share = jstat.beta.inv(0.9875, 4, 197);
    const size = (3 * 500) / jstat.gamma.inv(0.0125, 3, 1);
    expect(rule?.estimate.high).toBeCloseTo(share * size, 0);
    expect(rule?.verdict).toBe('open');
  });

  it('does not decide by spills that were not seen', async () => {
    const found = await look(() => 0);
    expect(found?.judgement.rules[0]?.estimate).toMatchObject({ mean: 0, low: 0, high: null });
  });
});

describe('draws that all came out alike', () => {
  const [spills] = houseRules({ spills_per_hour: 150 });
  const [flow] = houseRules({ least_throughput: 0.5 });
  const judged = (rule: (typeof spills)[], value: number, draws: number) =>
    judgeInDoubt(
      rule.filter((one) => one !== undefined),
      () => Array.from({ length: 2 * draws }, () => value),
      2,
      6,
      0.95,
    ).judgement;

  // By 1 - 0.025^(1 / n) <= 0.1 it takes 36 draws, whatever the number of shows of each.
  it.each([
    ['balls spilled', spills, 2700, 'side table'],
    ['balls passing', flow, 0, 'side table'],
    ['balls passing', flow, 0.9, 'inline'],
  ] as const)('leave %s open until others are rare for sure', (...given) => {
    const [, rule, value, verdict] = given;
    const few = judged([rule], value, 35);
    expect([few.verdict, few.rules[0]?.estimate.low, few.rules[0]?.estimate.high]).toEqual([
      'undecided',
      null,
      null,
    ]);
    const many = judged([rule], value, 36);
    expect([many.verdict, many.rules[0]?.estimate.low, many.rules[0]?.estimate.high]).toEqual([
      verdict,
      value,
      value,
    ]);
  });
});

describe('which module to count, by pencil', () => {
  it('shares out the variance, and takes off 1 h / (T + 1 h) of it', () => {
    // Uncorrelated columns -1 1 and -1 -1 1 1, repeated: 3 x the first and 1 x the second make variances 9 : 1.
    const columns = Array.from({ length: 40 }, (_, k) => [k % 2 === 0 ? -1 : 1, k % 4 < 2 ? -1 : 1] as const);
    const drawn = (['a', 'b'] as const).map((id, i) => ({
      module: stair(id),
      counted: jams(id, 3, i === 0 ? 19 * HOUR : HOUR),
      draws: columns.map((values) => new Map([['stop:jam', values[i] ?? NaN]])),
    }));
    const found = benchNext(
      columns.map(([x, y]) => 3 * x + y),
      drawn,
    );
    // Less what chance alone gives, 1 - (1 - r^2) 39 / 38: 0.8974 and 0.0763 of 0.9737.
    const [more, less] = [1 - (0.1 * 39) / 38, 1 - (0.9 * 39) / 38];
    const [a, b] = found.gains;
    expect([a?.module, b?.module]).toEqual(['a', 'b']);
    expect(a?.share).toBeCloseTo(more / (more + less), 9);
    expect(a?.takes_off).toBeCloseTo((a?.share ?? NaN) / 20, 9);
    expect(b?.takes_off).toBeCloseTo((b?.share ?? NaN) / 2, 9);
  });
});
