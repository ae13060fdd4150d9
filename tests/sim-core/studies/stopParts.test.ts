import { describe, expect, it } from 'vitest';
import { loadScenarioFile } from '@lapwright/sim-core';
import type { LoopSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { simulate } from '../../../packages/sim-core/src/model/index.js';
import { mser5 } from '../../../packages/sim-core/src/statistics/index.js';
import { calmAgainAt, calmUpTo } from '../../../packages/sim-core/src/studies/calmAgain.js';
import { cutShow } from '../../../packages/sim-core/src/studies/cutShow.js';
import { placesThatFlood } from '../../../packages/sim-core/src/studies/placesThatFlood.js';
import { settledAfter, system, withLevels } from '../../../packages/sim-core/src/studies/index.js';
import { exampleLoop } from '../../docs/exampleLoop.js';
import { chain, chancyLoop, lift } from './stopLoops.js';

describe('levels typed in', () => {
  const placed = (levels: Record<string, number>, spec: LoopSpec = chancyLoop()): readonly number[] => {
    const { supply } = withLevels(spec, new Map(Object.entries(levels)));
    return supply.kind === 'charge' ? supply.placed : [];
  };

  it('stand where they were seen, and the rest is handed round', () => {
    // 120 balls; 120 - 75 = 45 into the other three.
    expect(placed({ quick: 15, slow: 60 })).toEqual([15, 15, 15, 60, 15]);
    // The last holds 50, the others what is left: 120 - 4 = 116 into four, of which the last takes its 50 at most.
    expect(placed({ quick: 1, jams: 1, tips: 1, slow: 100 })).toEqual([1, 1, 1, 100, 17]);
    expect(placed({})).toEqual([24, 24, 24, 24, 24]);
  });

  it('are told all that is wrong with them', () => {
    expect(() => placed({ last: 51, jams: 61 })).toThrow(/jams=61.*at most 60[\s\S]*last=51.*at most 50/);
    expect(() => placed({ slow: 150 })).toThrow(/150 balls.*at most 120 in all/);
    expect(() => placed({ quick: 0, tips: 0, slow: 0 })).toThrow(/the other 120 find room/);
    expect(() => placed({ lift: 1 }, chain([lift('lift')], { family: 'constant', value: 1 }, 60))).toThrow(
      /starts empty.*--at 20min/,
    );
  });
});

describe('when a show has settled', () => {
  it('is after three laps', () => {
    // 20 balls at 1 a second, less 30 s of stop after 600 s of running: 21 s a lap, 63 s for three.
    expect(settledAfter(exampleLoop)).toBe(120);
    expect(settledAfter({ ...exampleLoop, show: { seconds: 100, warmUpSeconds: 0 } })).toBe(50);
    expect(settledAfter({ ...exampleLoop, show: { seconds: 3600, warmUpSeconds: 900 } })).toBe(900);
  });

  it('is late enough for the demo, by MSER-5 on the balls in baskets', () => {
    const { spec } = loadScenarioFile('scenarios/demo.yaml');
    const settled = settledAfter(spec);
    // Where the crowd gathers: the fullest basket, looked at every 20 s for two hours, over a few shows.
    const looks = new Float64Array(360);
    for (let replication = 0; replication < 3; replication++) {
      let next = 0;
      simulate(cutShow(spec, 7200), {
        seed: 1,
        replication,
        observe: (view) => {
          if (view.now < 20 * next || next >= looks.length) return;
          const levels = spec.modules.map((_, m) => view.level(m));
          looks[next] = (looks[next] ?? 0) + Math.max(...levels);
          next++;
        },
      });
    }
    expect(20 * mser5(looks).truncate).toBeLessThanOrEqual(settled);
  });
});

describe('calm', () => {
  it('is what 95 of 100 looks are', () => {
    const looks = Array.from({ length: 200 }, (_, i) => i);
    expect(calmUpTo([looks.slice(0, 50), looks.slice(50)])).toBe(189);
  });

  it('begins with the first minute that is calm throughout', () => {
    const minute = new Array<number>(13).fill(1);
    expect(calmAgainAt([...minute], 0, 1)).toBe(0);
    expect(calmAgainAt([9, 9, ...minute], 0, 1)).toBe(10);
    expect(calmAgainAt([9, ...minute.slice(1), 9, ...minute], 0, 1)).toBe(70);
    expect(calmAgainAt([...minute, 9, ...minute], 12, 1)).toBe(70);
    expect(calmAgainAt([9, ...minute.slice(1)], 0, 1)).toBe(Infinity);
  });
});

describe('places that may flood', () => {
  const back = { capacity: 5, order: 'fifo' as const, whenFull: { kind: 'back_up' as const, holds: 3 } };
  const time = { family: 'constant' as const, value: 1 };
  it.each<[string, Partial<Record<string, object>>, number[]]>([
    ['its own', {}, [3]],
    ['those it holds up', { slow: { basket: back }, tips: { basket: back } }, [3, 2, 1]],
    ['round the loop', { quick: { basket: back } }, [0, 4]],
    [
      'where its chute leads',
      { slow: { basket: { ...back, whenFull: { kind: 'return', to: 0, time } } } },
      [3, 0],
    ],
    ['where a lever keeps balls', { jams: { lever: { watches: [3], takes: time, time } } }, [3, 1]],
  ])('are %s', (_, changes, places) => {
    const base = chancyLoop();
    const spec = { ...base, modules: base.modules.map((module) => ({ ...module, ...changes[module.id] })) };
    expect(placesThatFlood(spec, places[0] ?? 0)).toEqual(places);
  });
});

describe('a cut show', () => {
  it('ends there and keeps the sessions that have begun', () => {
    const { spec } = loadScenarioFile('scenarios/two-days.yaml');
    const seconds = (spec.show.sessions?.[1]?.fromSeconds ?? NaN) + 60;
    const cut = cutShow(spec, seconds);
    expect([cut.show.seconds, cut.show.sessions?.length]).toEqual([seconds, 2]);
    expect(() => simulate(cut, { seed: 1 })).not.toThrow();
    expect(cutShow(spec, 1e9).show.seconds).toBe(spec.show.seconds);
  });
});

describe('a system with a reading', () => {
  it('is another than without, and than with another reading', () => {
    const reading = { kind: 'flood', fromSeconds: 0, toSeconds: 10, moments: 1 } as const;
    const keys = [
      system('a', exampleLoop).key,
      system('a', exampleLoop, reading).key,
      system('a', exampleLoop, { ...reading, moments: 2 }).key,
    ];
    expect(new Set(keys).size).toBe(3);
    expect(system('b', exampleLoop, { ...reading }).key).toBe(keys[1]);
  });
});
