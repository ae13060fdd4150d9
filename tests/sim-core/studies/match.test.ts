import { describe, expect, it } from 'vitest';
import { loadScenarioFile, match, type MatchLog, showsHere, Study, withStopRate } from '@lapwright/sim-core';
import { readLogged, toLoggedShow } from '../../../packages/sim-core/src/experiments/loggedReading.js';
import { PreparedLoop, simulate } from '../../../packages/sim-core/src/model/index.js';
import type { LoopSpec } from '../../../packages/sim-core/src/model/spec/index.js';

const { spec } = loadScenarioFile('scenarios/village-hall.yaml');
const END = spec.show.seconds;
const STRETCHES = [
  { from: 600, to: END / 2 },
  { from: END / 2 + 300, to: END },
];
const COUNTER = [600, END / 3, END / 2, END];

/** What somebody with a watch would have written down at a show. */
function logOf(loop: LoopSpec, replication: number): MatchLog {
  const reading = { kind: 'logged', stretches: STRETCHES, counterAt: COUNTER } as const;
  const show = toLoggedShow(
    readLogged(new PreparedLoop(loop), reading, 99, replication),
    loop.modules.length,
    COUNTER.length,
  );
  return {
    stretches: STRETCHES,
    modules: loop.modules.map(({ id }, m) => {
      const { stops = NaN, cleared = 0, clearedSeconds = 0, spilled = null } = show.modules[m] ?? {};
      const clears = Array.from({ length: cleared }, () => clearedSeconds / cleared);
      return { module: id, stops, clears, spilled };
    }),
    passes: COUNTER.slice(1).map((to, i) => ({ from: COUNTER[i] ?? NaN, to, balls: show.passes[i] ?? NaN })),
    laps: [],
  };
}

describe('what a log of a show tells', () => {
  it('is what happened in the stretches, and what the counter said', () => {
    const reading = { kind: 'logged', stretches: STRETCHES, counterAt: COUNTER } as const;
    const told = toLoggedShow(
      readLogged(new PreparedLoop(spec), reading, 5, 2),
      spec.modules.length,
      COUNTER.length,
    );
    const within = (time: number): boolean => STRETCHES.some(({ from, to }) => time >= from && time <= to);
    const stops = spec.modules.map(() => 0);
    const spilled = spec.modules.map(() => 0);
    const cleared = spec.modules.map(() => 0);
    const result = simulate(spec, {
      seed: 5,
      replication: 2,
      log: ({ kind, module: m, time, balls = 0 }) => {
        if (!within(time)) return;
        if (kind === 'stops') stops[m] = (stops[m] ?? 0) + 1;
        if (kind === 'spills') spilled[m] = (spilled[m] ?? 0) + balls;
        if (kind === 'cleared' || kind === 'freed_itself') cleared[m] = (cleared[m] ?? 0) + 1;
      },
    });
    expect(told.modules.map((one) => one.stops)).toEqual(stops);
    expect(told.modules.map((one) => one.spilled)).toEqual(spilled);
    expect(told.modules.map((one) => one.cleared)).toEqual(cleared);
    expect(stops.reduce((sum, count) => sum + count)).toBeGreaterThan(0);
    // From the first reading to the last; what passed before the first is in no reading.
    const whole = toLoggedShow(
      readLogged(new PreparedLoop(spec), { ...reading, counterAt: [0, 1000, END] }, 5, 2),
      8,
      3,
    );
    expect(whole.passes.reduce((sum, balls) => sum + balls)).toBe(result.passes);
    expect(told.passes.reduce((sum, balls) => sum + balls)).toBeLessThan(result.passes);
  });
});

describe('does the file match the log', () => {
  // Simulated once for all.
  const study = new Study({ seed: 1, source: showsHere() });
  const few = { replications: 79 };

  it('cries wolf in at most one of twenty logs of its own shows', async () => {
    const logs = Array.from({ length: 30 }, (_, r) => logOf(spec, r));
    let alarms = 0;
    for (const log of logs) if ((await match(study, spec, log, few)).verdict === 'differs') alarms++;
    // Binomial with 30 logs and 5 %: more than 6 has a chance below 0.1 %.
    expect(alarms).toBeLessThanOrEqual(6);
  });

  it('tells which module stops more often than the file says', async () => {
    const off = withStopRate(spec, 'old-mill', 4);
    const found = await match(study, spec, logOf(off, 0), few);
    expect(found.verdict).toBe('differs');
    const [worst] = found.figures
      .filter(({ figure }) => figure === 'stops')
      .toSorted((a, b) => a.chance - b.chance);
    expect(worst).toMatchObject({ module: 'old-mill', verdict: 'differs' });
    expect(worst?.logged).toBeGreaterThan(worst?.predicted?.high ?? Infinity);
  });

  it('holds a module that was taken out by hand against the time in which it stood in the loop', async () => {
    const m = spec.modules.findIndex(({ id }) => id === 'old-mill');
    const inline = [{ from: 600, to: END / 4 }];
    const out = [{ from: END / 4, to: END / 2 }, STRETCHES[1] ?? { from: 0, to: 0 }];
    const reading = { kind: 'logged', stretches: STRETCHES, counterAt: COUNTER } as const;
    const own = { ...reading, inline: [{ module: m, stretches: inline }] };
    const told = toLoggedShow(
      readLogged(new PreparedLoop(spec), own, 5, 2),
      spec.modules.length,
      COUNTER.length,
    );
    let stops = 0;
    simulate(spec, {
      seed: 5,
      replication: 2,
      log: ({ kind, module, time }) => {
        if (kind === 'stops' && module === m && time >= 600 && time <= END / 4) stops++;
      },
    });
    expect(told.modules[m]?.stops).toBe(stops);
    // Twice as many stops as in shows of the file, in the quarter in which it stood there: the whole show would hide it.
    const log = logOf(spec, 0);
    const modules = log.modules.map((one) =>
      one.module === 'old-mill' ? { ...one, stops: 20, clears: [], takenOut: { inline, out } } : one,
    );
    const found = await match(study, spec, { ...log, modules }, few);
    expect(found.out.map(({ module, from_s: from }) => [module, from])).toEqual([
      ['old-mill', END / 4],
      ['old-mill', END / 2 + 300],
    ]);
    const figure = found.figures.find(
      ({ module, figure: name }) => module === 'old-mill' && name === 'stops',
    );
    expect(figure).toMatchObject({ logged: 20, verdict: 'differs' });
  });

  it('says when there is nothing to compare, or too few shows for a band', async () => {
    const nothing = { stretches: STRETCHES, modules: [], passes: [], laps: [] };
    expect((await match(study, spec, nothing, few)).verdict).toBe('nothing to compare');
    await expect(match(study, spec, logOf(spec, 0), { replications: 38 })).rejects.toThrow('from 39');
    const stranger = { ...nothing, modules: [{ module: 'nobody', stops: 1, clears: [], spilled: null }] };
    await expect(match(study, spec, stranger)).rejects.toThrow('a module of the loop');
  });
});
