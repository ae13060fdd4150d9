import { describe, expect, it } from 'vitest';
import { floodSeconds, roughCut } from '../../../packages/sim-core/src/estimates/index.js';
import { readFlood, showsHere } from '../../../packages/sim-core/src/experiments/index.js';
import { PreparedLoop } from '../../../packages/sim-core/src/model/index.js';
import type { ModuleSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { floodCard, Study, whenItStops } from '../../../packages/sim-core/src/studies/index.js';
import { chain, chancyLoop, lift } from './stopLoops.js';

const here = (seed = 1): Study => new Study({ seed, source: showsHere() });
const basket = (capacity: number, whenFull: ModuleSpec['basket']['whenFull']): ModuleSpec['basket'] => ({
  capacity,
  order: 'fifo',
  whenFull,
});

describe('a flood card', () => {
  it('is right with pencil and paper: room over balls a second, and the wait for the next ball', async () => {
    // A ball comes each second and is lifted at once: the basket is empty, and the 31st ball finds no room.
    const spec = chain([lift('lift')], { family: 'constant', value: 1 }, 3600, 0);
    const { modules } = await floodCard(here(), spec, { replications: 30, watchSeconds: 300 });
    const [line] = modules;
    const fluid = floodSeconds({ capacity: 30, level: 0, inflowBps: 1 });
    for (const [share, at] of [
      [0.05, line?.p05],
      [0.5, line?.p50],
      [0.95, line?.p95],
    ] as const) {
      // The moment is uniform between two balls, so the time is uniform from 30 to 31 s; 240 moments.
      expect(Math.abs((at?.mean ?? NaN) - fluid - share)).toBeLessThan(
        3 * Math.sqrt((share * (1 - share)) / 240),
      );
    }
    expect(line?.seen).toBe(240);
    expect(line?.first).toEqual({ kind: 'by_hand', what: '', takes_s: 0, within_s: null });
  });

  it('gives Erlang times where balls come by chance', () => {
    // The tenth ball of a Poisson stream of 0.5 a second: chi-square with 20 degrees of freedom, 10.851, 19.337, 31.410
    // for 5, 50 and 95 % (textbook table), over 2 x 0.5. The lift is so quick that its basket stays empty.
    const quick = lift('lift', {
      basket: basket(9, { kind: 'spill' }),
      cycle: { family: 'constant', value: 1e-6 },
    });
    const spec = chain([quick], { family: 'exponential', mean: 2 }, 200);
    const reading = { kind: 'flood', fromSeconds: 20, toSeconds: 100, moments: 1 } as const;
    const waits = Array.from(
      { length: 1500 },
      (_, r) => readFlood(new PreparedLoop(spec), reading, 8, r)[0] ?? NaN,
    );
    for (const [share, seconds] of [
      [0.05, 10.851],
      [0.5, 19.337],
      [0.95, 31.41],
    ] as const) {
      const seen = waits.filter((wait) => wait >= 0 && wait <= seconds).length / waits.length;
      expect(Math.abs(seen - share)).toBeLessThan(3 * Math.sqrt((share * (1 - share)) / waits.length));
    }
  });

  it('says when a basket backs up, reckons where nothing can be seen coming, and names who gets the balls', async () => {
    const spec = chain(
      [
        lift('feeder', { basket: basket(500, { kind: 'spill' }) }),
        lift('backs', {
          basket: basket(10, { kind: 'back_up', holds: 20 }),
          travel: { family: 'constant', value: 0 },
        }),
        lift('straight', { basket: basket(12, { kind: 'back_up', holds: 5 }) }),
        lift('returns', {
          basket: basket(8, { kind: 'return', to: 0, time: { family: 'constant', value: 2 } }),
        }),
      ],
      { family: 'constant', value: 1 },
      3600,
      0,
    );
    const { modules } = await floodCard(here(), spec, { replications: 5, watchSeconds: 300 });
    const [, backs, straight, returns] = modules;
    expect(backs).toMatchObject({ when_full: 'back_up', reckoned: false });
    // The 11th ball, between 10 and 11 s from any moment.
    expect(backs?.p05.mean).toBeGreaterThan(10);
    expect(backs?.p95.mean).toBeLessThan(11);
    expect(straight).toMatchObject({
      when_full: 'back_up',
      reckoned: true,
      p50: { mean: roughCut(spec).modules[2]?.floodsAfterSeconds, low: null },
    });
    expect(returns).toMatchObject({ when_full: 'return', returns_to: 'feeder' });
    expect(returns?.p50.mean).toBeGreaterThan(8);
    expect(returns?.p95.mean).toBeLessThan(9);
  });

  it('says what to do first: the nearest lever, less what is on the way; or what goes in', async () => {
    const constant = (value: number) => ({ family: 'constant' as const, value });
    const lever = (takes: number): NonNullable<ModuleSpec['lever']> => ({
      watches: [2],
      takes: constant(takes),
      time: constant(1),
    });
    const spec = {
      ...chain(
        [
          lift('far', { lever: lever(3) }),
          lift('near', { lever: lever(4) }),
          lift('watched'),
          lift('pulled', {
            pull: { outlastsSeconds: 60, spares: [0], chute: constant(5), swap: constant(40) },
          }),
          lift('chuted', {
            pull: { outlastsSeconds: 60, spares: [], chute: constant(5), swap: constant(10) },
          }),
        ],
        constant(1),
        3600,
        0,
      ),
      spares: [lift('spare')],
    };
    const { modules } = await floodCard(here(), spec, { replications: 10, watchSeconds: 300 });
    const soonest = (m: number): number => modules[m]?.p05.mean ?? NaN;
    expect(modules[2]?.first).toMatchObject({ kind: 'lever', what: 'near', takes_s: 4 });
    expect(modules[2]?.first.within_s).toBeCloseTo(soonest(2) - 4 - 5, 9);
    expect(modules[3]?.first).toMatchObject({ kind: 'swap', what: 'spare', takes_s: 40 });
    expect(modules[3]?.first.within_s).toBeCloseTo(soonest(3) - 40, 9);
    expect(modules[3]?.first.within_s).toBeLessThan(0);
    expect(modules[4]?.first).toMatchObject({ kind: 'swap', what: 'a plain chute', takes_s: 10 });
  });

  it('agrees with shows in which the module really stops', async () => {
    const spec = chancyLoop({ show: { seconds: 3000, warmUpSeconds: 0 } });
    const card = await floodCard(here(2), spec, { replications: 40, watchSeconds: 300 });
    for (const module of ['quick', 'jams', 'last']) {
      const { upstream } = await whenItStops(here(3), spec, {
        module,
        replications: 60,
        atSeconds: 900,
        stopSeconds: 200,
        watchSeconds: 10,
      });
      const line = card.modules.find(({ id }) => id === module);
      const direct = upstream[0]?.first;
      for (const [one, other] of [
        [line?.p50, direct?.p50],
        [line?.p05, direct?.p05],
      ]) {
        // Both intervals hold the same time; that two of 95 % miss each other happens once in two hundred.
        expect(one?.low ?? -Infinity, module).toBeLessThan(other?.high ?? Infinity);
        expect(one?.high ?? Infinity, module).toBeGreaterThan(other?.low ?? -Infinity);
      }
    }
  });

  it('does not count moments at which a module stands still, and says when nothing floods', async () => {
    const spec = chancyLoop();
    const jams = await floodCard(here(), spec, { replications: 20, moments: 10 });
    const seen = jams.modules.find(({ id }) => id === 'jams')?.seen ?? NaN;
    expect(seen).toBeLessThan(200);
    expect(seen).toBeGreaterThan(150);
    expect(jams.modules.find(({ id }) => id === 'last')?.seen).toBe(200);
    const wide = spec.modules.map((module) => ({
      ...module,
      basket: { ...module.basket, capacity: Infinity },
    }));
    const none = await floodCard(here(), { ...spec, modules: wide }, { replications: 3 });
    for (const { p05, p95 } of none.modules) expect([p05.mean, p95.mean]).toEqual([null, null]);
  });

  it('refuses options that cannot be used', async () => {
    await expect(floodCard(here(), chancyLoop(), { replications: 1 })).rejects.toThrow(/replications is 1/);
    await expect(floodCard(here(), chancyLoop(), { replications: 2, moments: 0 })).rejects.toThrow(
      /moments is 0/,
    );
  });
});
