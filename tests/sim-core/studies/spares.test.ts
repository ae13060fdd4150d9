import { describe, expect, it } from 'vitest';
import type { LoopSpec, ModuleSpec, PullSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { spares, Study, withSpares, withStopRate } from '../../../packages/sim-core/src/studies/index.js';
import {
  buildDistribution,
  type DistributionSpec,
} from '../../../packages/sim-core/src/distributions/index.js';
import { exampleLoop } from '../../docs/exampleLoop.js';
import { madeSource } from './madeSource.js';

const [quick, slow] = exampleLoop.modules as readonly [ModuleSpec, ModuleSpec];
const swap = { family: 'constant', value: 60 } as const;
const rule = (indexes: readonly number[], chute = false): PullSpec => ({
  outlastsSeconds: 60,
  spares: indexes,
  swap,
  ...(chute && { chute: { family: 'constant', value: 5 } }),
});
const loop: LoopSpec = {
  ...exampleLoop,
  modules: [
    { ...quick, pull: rule([0, 1]) },
    { ...slow, pull: rule([1], true) },
  ],
  spares: ['a', 'b', 'c'].map((id) => ({ ...quick, id })),
};

/** The spares that pull rules of a loop still name. */
function brought({ modules, spares: all = [] }: LoopSpec): string {
  const named = new Set(modules.flatMap(({ pull }) => pull?.spares ?? []));
  return all.flatMap(({ id }, i) => (named.has(i) ? [id] : [])).join(' ');
}

describe('a loop with some of its spares', () => {
  it('keeps the rules that can put anything in', () => {
    const rules = (ids: readonly string[]): unknown =>
      withSpares(loop, ids).modules.map(({ pull }) => pull && [pull.spares, pull.chute !== undefined]);
    expect(rules(['a', 'b', 'c'])).toEqual([
      [[0, 1], false],
      [[1], true],
    ]);
    expect(rules(['a'])).toEqual([
      [[0], false],
      [[], true],
    ]);
    expect(rules([])).toEqual([undefined, [[], true]]);
  });
});

describe('which spares to bring', () => {
  const study = (spills: Readonly<Record<string, number>>, seed = 1): Study =>
    new Study({
      seed,
      source: madeSource((_, { common }, { spec, replication }) => {
        const own = madeLuck(seed, replication, brought(spec));
        return { spills_per_hour: (spills[brought(spec)] ?? NaN) + 20 * common() + 4 * own };
      }),
    });
  const madeLuck = (seed: number, replication: number, name: string): number => {
    // A number between 0 and 1 from the three, by a hash (FNV-1a, finished as in MurmurHash3).
    let hash = 2166136261;
    for (const letter of `${seed} ${replication} ${name}`)
      hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 16777619);
    hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
    hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
    return ((hash ^ (hash >>> 16)) >>> 0) / 2 ** 32;
  };

  it('is the one beyond which one more brings no difference that matters, with gains over none', async () => {
    const found = await spares(study({ '': 60, a: 45, b: 52, 'a b': 44 }), loop, {
      replications: 40,
      margin: 3,
    });
    expect(found).toMatchObject({
      named: ['a', 'b'],
      unnamed: ['c'],
      pulled: ['quick', 'slow'],
      bring: ['a'],
    });
    expect(found.sets.map(({ spares: set }) => set)).toEqual([['a', 'b'], ['a'], ['b'], []]);
    for (const [i, truth] of [16, 15, 8].entries()) {
      const gain = found.sets[i]?.gain;
      expect(gain?.low ?? NaN).toBeLessThan(truth);
      expect(gain?.high ?? NaN).toBeGreaterThan(truth);
    }
    expect(found.failed).toMatchObject({ spares: [] });
    expect(found.rival?.gain.high ?? NaN).toBeLessThanOrEqual(3);
  });

  it('is none, or both, where that is so', async () => {
    const none = await spares(study({ '': 60, a: 60, b: 60, 'a b': 59 }), loop, {
      replications: 40,
      margin: 3,
    });
    expect(none.bring).toEqual([]);
    const both = await spares(study({ '': 60, a: 50, b: 50, 'a b': 30 }), loop, {
      replications: 40,
      margin: 3,
    });
    expect(both.bring).toEqual(['a', 'b']);
  });

  it('says of at most 5 % that none is needed when one gains a hair more than what matters', async () => {
    let wrong = 0;
    for (let seed = 1; seed <= 1000; seed++) {
      const { bring } = await spares(study({ '': 60, a: 56.999, b: 60, 'a b': 57 }, seed), loop, {
        replications: 15,
        explore: 8,
        margin: 3,
      });
      if (bring?.length === 0) wrong++;
    }
    expect(wrong / 1000).toBeLessThanOrEqual(0.05);
  }, 120_000);

  it('asks for no show when no rule names a spare', async () => {
    const nothing = study({});
    const modules = loop.modules.map(({ pull: _pull, ...rest }) => rest);
    const found = await spares(nothing, { ...loop, modules }, { replications: 10 });
    expect(found).toMatchObject({ named: [], unnamed: ['a', 'b', 'c'], pulled: [], sets: [], bring: null });
    expect(nothing.shows).toBe(0);
  });
});

describe('a module that stops more or less often', () => {
  const families: readonly DistributionSpec[] = [
    { family: 'constant', value: 600 },
    { family: 'uniform', min: 300, max: 900 },
    { family: 'triangular', min: 300, mode: 500, max: 900 },
    { family: 'normal', mean: 600, cv: 0.1 },
    { family: 'lognormal', mean: 600, cv: 0.5 },
    { family: 'gamma', mean: 600, cv: 0.5 },
    { family: 'erlang', mean: 600, stages: 3 },
    { family: 'exponential', mean: 600 },
    { family: 'weibull', scale: 600, shape: 2 },
    { family: 'weibull', mean: 600, cv: 0.6 },
    { family: 'empirical', values: [100, 300, 900] },
  ];
  const [jam] = slow.stops as readonly [ModuleSpec['stops'][number]];
  const stopping = (trigger: ModuleSpec['stops'][number]['trigger']): LoopSpec => ({
    ...exampleLoop,
    modules: [quick, { ...slow, stops: [{ ...jam, trigger }] }],
  });
  const triggerOf = ({ modules }: LoopSpec): unknown => modules[1]?.stops[0]?.trigger;

  it.each(families)('with times that are $family', (time) => {
    const before = buildDistribution(time);
    const trigger = triggerOf(withStopRate(stopping({ kind: 'running', time }), 'slow', 2.5)) as {
      time: DistributionSpec;
    };
    const after = buildDistribution(trigger.time);
    expect(after.mean).toBeCloseTo(before.mean / 2.5, 6);
    expect(Math.sqrt(after.variance)).toBeCloseTo(Math.sqrt(before.variance) / 2.5, 6);
  });

  it('with chances, never, and with planned stops', () => {
    const chance = stopping({ kind: 'per_ball', probability: 0.3 });
    expect(triggerOf(withStopRate(chance, 'slow', 2))).toEqual({ kind: 'per_ball', probability: 0.6 });
    expect(triggerOf(withStopRate(chance, 'slow', 9))).toEqual({ kind: 'per_ball', probability: 1 });
    expect(withStopRate(chance, 'slow', 0).modules[1]?.stops).toEqual([]);
    expect(withStopRate(chance, 'slow', 2).modules[0]).toBe(quick);
    const planned = stopping({ kind: 'at', times: [60] });
    expect(withStopRate(planned, 'slow', 0).modules[1]?.stops).toHaveLength(1);
    expect(() => withStopRate(chance, 'nobody', 1)).toThrow(/"nobody"/);
    expect(() => withStopRate(chance, 'slow', -1)).toThrow(/-1/);
  });
});
