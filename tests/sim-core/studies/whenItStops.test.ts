import { describe, expect, it } from 'vitest';
import { floodSeconds, stopSurge } from '../../../packages/sim-core/src/estimates/index.js';
import { readStop, showsHere, toStopShow } from '../../../packages/sim-core/src/experiments/index.js';
import { Study, whenItStops, type WhenItStops } from '../../../packages/sim-core/src/studies/index.js';
import { whenItStopsAnswer } from '../../../packages/sim-core/src/answers/index.js';
import { exampleLoop } from '../../docs/exampleLoop.js';
import { chain, chancyLoop, lift } from './stopLoops.js';

const ask = (
  spec: Parameters<typeof whenItStops>[1],
  options: Omit<Parameters<typeof whenItStops>[2], 'module'> & { readonly module?: string },
  seed = 1,
): Promise<WhenItStops> =>
  whenItStops(new Study({ seed, source: showsHere() }), spec, { module: 'lift', ...options });

/** Share of times up to a moment against its chance, in standard errors. */
function z(times: readonly number[], upTo: number, chance: number): number {
  const seen = times.filter((time) => time <= upTo).length / times.length;
  return (seen - chance) / Math.sqrt((chance * (1 - chance)) / times.length);
}

describe('with pencil and paper', () => {
  // A ball comes each second and is lifted at once; from 100.5 s on the lift stands still for a minute.
  const spec = chain(
    [lift('lift'), lift('next', { cycle: { family: 'constant', value: 0.5 } })],
    { family: 'constant', value: 1 },
    1200,
    0,
  );
  const stop = { replications: 2, atSeconds: 100.5, stopSeconds: 60, watchSeconds: 400 };

  it('floods when the room is used up, spills what comes then, and is calm when the crowd is lifted', async () => {
    const found = await ask(spec, stop);
    // Balls come at 101, 102 ...; 30 find room, the 31st comes at 131, the last of the stop at 160.
    expect(found.upstream[0]?.first.p50.mean).toBeCloseTo(30.5, 9);
    expect(found.full.p50.mean).toBeCloseTo(30.5, 9);
    expect(found.spilled.while_stopped.mean).toBe(30);
    expect(found.spilled.after.mean).toBe(0);
    expect(found.stood.p50.mean).toBeCloseTo(60, 9);
    // The same by the formulas for balls that come evenly, up to one ball or second, and looks every 5 s.
    const fluid = stopSurge({ capacity: 30, level: 0, inflowBps: 1, stopSeconds: 60, capacityBps: 1.25 });
    expect(fluid).toEqual({ fullAfterSeconds: 30, spilledBalls: 30, calmAfterSeconds: 120 });
    expect(found.upstream[0]?.first.p50.mean).toBeCloseTo(
      floodSeconds({ capacity: 30, level: 0, inflowBps: 1 }) + 0.5,
      9,
    );
    expect(Math.abs((found.calm.after.p50.mean ?? NaN) - 120)).toBeLessThanOrEqual(5);
    // While it drains it hands on a ball each 0.8 s: 75 a minute, and 60 without the stop.
    expect(found.surge.handed_on_per_minute.mean).toBe(75);
    expect(found.surge.without.mean).toBe(60);
    expect(found.left_out).toBe(0);
  });

  it('says by when a swap must begin: the first ball falls after 30.5 s, 12 s before that', async () => {
    const { actions } = await ask(spec, { ...stop, swapSeconds: 12 });
    expect(actions).toHaveLength(1);
    expect(actions[0]).toMatchObject({
      kind: 'pull',
      takes_s: 12,
      falls: { mean: 1 },
      falls_at_once: { mean: 0 },
    });
    expect(actions[0]?.latest?.mean).toBeCloseTo(18.5, 9);
    const late = await ask(spec, { ...stop, swapSeconds: 40 });
    expect(late.actions[0]).toMatchObject({ falls_at_once: { mean: 1 } });
    expect(late.actions[0]?.latest?.mean).toBeCloseTo(-9.5, 9);
    const short = await ask(spec, { ...stop, stopSeconds: 20, swapSeconds: 12 });
    expect(short.actions[0]).toMatchObject({ falls: { mean: 0 }, latest: null });
    expect(short.upstream[0]?.first.p95.mean).toBeNull();
    const said = [late, short].map((found) => whenItStopsAnswer(found, { show: spec.show, typed: false }));
    expect(said.map(({ verdict }) => verdict)).toEqual(['floods', 'does not flood']);
    expect(said[0]?.because[0]).toMatch(/comes too late .* in 100 % of the shows/);
    expect(said[1]?.because[0]).toMatch(/no hurry .* in 0 % of the shows/);
    expect(said[1]?.sentence).toMatch(/no basket floods meanwhile: it did not happen in any of 2 shows/);
  });

  it('says by when a lever must stand: before the ball is let go that would be one too many', async () => {
    const feeder = lift('feeder', {
      lever: {
        watches: [1],
        takes: { family: 'constant', value: 4 },
        time: { family: 'constant', value: 1 },
      },
    });
    // The feeder lets go of a ball at 0.8, 1.8, ..., which arrives 5 s later. From 200 on the lift stands still. On the
    // way then are those let go at 195.8 to 199.8; the 26th after them, let go at 225.8, finds no room at 230.8.
    const { actions, upstream } = await ask(
      chain([feeder, lift('lift')], { family: 'constant', value: 1 }, 1200, 0),
      { ...stop, atSeconds: 200 },
    );
    expect(upstream.map(({ id }) => id)).toEqual(['lift', 'feeder']);
    expect(upstream[0]?.first.p50.mean).toBeCloseTo(30.8, 9);
    const [lever] = actions;
    expect(lever?.kind).toBe('lever');
    expect(lever?.latest?.mean).toBeCloseTo(25.8 - 4, 9);
    // Its own basket has room for 30 too, and balls come at 201, 202 ...: the 31st at 231.
    expect(lever?.lasts?.p50.mean).toBeCloseTo(31, 9);
  });

  it('counts a show in which it stands still already as left out', async () => {
    const rest = {
      id: 'rest',
      trigger: { kind: 'clock' as const, time: { family: 'uniform' as const, min: 60, max: 140 } },
      drops: 0,
      remedy: { kind: 'itself' as const, time: { family: 'constant' as const, value: 20 } },
    };
    const found = await ask(
      chain([lift('lift', { stops: [rest] })], { family: 'constant', value: 1 }, 1200, 0),
      { ...stop, atSeconds: 100, replications: 300 },
    );
    // It rests at 100 when it began to between 80 and 100, one chance in four.
    expect(found.replications + found.left_out).toBe(300);
    expect(Math.abs(found.left_out / 300 - 0.25)).toBeLessThan(3 * Math.sqrt(0.1875 / 300));
  });
});

describe('balls that come by chance', () => {
  // Poisson arrivals at 0.5 a second and room for 9: the 10th finds none, after a time of the Erlang distribution.
  // Quantiles from the table of chi-square with 20 degrees of freedom, 10.851, 19.337 and 31.410 for 5, 50 and 95 %
  // (in every textbook of statistics): time = chi-square / (2 x 0.5).
  const spec = chain(
    [lift('lift', { basket: { capacity: 9, order: 'fifo', whenFull: { kind: 'spill' } } })],
    { family: 'exponential', mean: 2 },
    100,
  );
  const shows = Array.from({ length: 4000 }, (_, replication) =>
    toStopShow(
      readStop(
        spec,
        {
          kind: 'stop',
          place: 0,
          atSeconds: 0,
          remedy: { kind: 'itself', time: { family: 'constant', value: 60 } },
        },
        5,
        replication,
      ),
    ),
  );

  it.each([
    [0.05, 10.851],
    [0.5, 19.337],
    [0.95, 31.41],
  ])('fill a basket after an Erlang time: %s of them by %s s', (chance, time) => {
    const first = shows.map(({ firstExtraSpill }) => firstExtraSpill[0] ?? NaN);
    expect(Math.abs(z(first, time, chance))).toBeLessThan(3);
    expect(
      Math.abs(
        z(
          shows.map(({ fullAfter }) => fullAfter),
          time,
          chance,
        ),
      ),
    ).toBeLessThan(3);
  });

  it('spill on average what comes in a minute beyond the room', () => {
    // E max(0, N - 9) with N Poisson of mean 30, from the Poisson probabilities themselves.
    let chance = Math.exp(-30);
    let expected = 30 - 9;
    for (let n = 0; n < 9; n++) {
      expected += (9 - n) * chance;
      chance *= 30 / (n + 1);
    }
    const spilled = shows.map(({ spilledWhileStopped }) => spilledWhileStopped);
    const mean = spilled.reduce((sum, balls) => sum + balls, 0) / spilled.length;
    // The variance of what comes is 30, and of what is beyond the room hardly less.
    expect(Math.abs(mean - expected)).toBeLessThan(3 * Math.sqrt(30 / spilled.length));
  });

  it('counts shows without a flood as later: a stop of 15 s floods in the share that the Poisson distribution says', async () => {
    const found = await ask(spec, { replications: 1000, atSeconds: 0, stopSeconds: 15, watchSeconds: 40 }, 6);
    // P(10 or more of a Poisson number of mean 7.5) = 1 - 0.7764 (tables of the Poisson distribution).
    const share = found.upstream[0]?.floods;
    expect(Math.abs((share?.mean ?? NaN) - 0.2236)).toBeLessThan(3 * Math.sqrt(0.1736 / 1000));
    expect(found.upstream[0]?.first.p50.mean).toBeNull();
    expect(found.upstream[0]?.first.p05.mean).not.toBeNull();
    expect(share?.low ?? NaN).toBeLessThan(0.2236);
    expect(share?.high ?? NaN).toBeGreaterThan(0.2236);
  });
});

describe('a stop in a loop', () => {
  it('is calm again at once when there was hardly a stop, and later the longer it was', async () => {
    const after = async (stopSeconds: number): Promise<number> =>
      (await ask(chancyLoop(), { module: 'quick', replications: 60, stopSeconds })).calm.after.p50.mean ??
      NaN;
    const calm = [await after(1), await after(20), await after(60)];
    expect(calm[0]).toBeLessThanOrEqual(5);
    expect(calm[1]).toBeGreaterThan(10);
    expect(calm[2]).toBeGreaterThan(calm[1] ?? NaN);
  });

  it('is told the same whatever else the study knows', async () => {
    const study = new Study({ seed: 3, source: showsHere() });
    const options = { module: 'slow', stopSeconds: 60, atSeconds: 900 };
    const first = await whenItStops(study, chancyLoop(), { ...options, replications: 5 });
    await whenItStops(study, chancyLoop(), { ...options, replications: 9 });
    expect(await whenItStops(study, chancyLoop(), { ...options, replications: 5 })).toEqual(first);
    // Nine pairs.
    expect(study.shows).toBe(18);
  });

  it.each([
    [{ module: 'none' }, /module is "none" but must be the id/],
    [{ stopSeconds: 0 }, /stopSeconds is 0/],
    [{ sure: 1 }, /sure is 1/],
    [{ replications: 1 }, /replications is 1/],
    [{ atSeconds: 3600 }, /atSeconds is 3600/],
  ])('refuses %o', async (changes, message) => {
    const options = { module: 'slow', replications: 2, stopSeconds: 60, ...changes };
    await expect(ask(exampleLoop, options)).rejects.toThrow(message);
  });

  it('says so when it never runs at that moment', async () => {
    const broken = {
      id: 'broken',
      trigger: { kind: 'at' as const, times: [10] },
      drops: 0,
      remedy: { kind: 'itself' as const, time: { family: 'constant' as const, value: 3000 } },
    };
    const modules = exampleLoop.modules.map((module) => ({ ...module, stops: [broken] }));
    await expect(
      ask({ ...exampleLoop, modules }, { module: 'slow', replications: 3, stopSeconds: 60 }),
    ).rejects.toThrow(/stands still or is out of the loop at that moment in 3 of 3 shows/);
  });
});
