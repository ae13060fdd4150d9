import {
  benchLog,
  benchSpec,
  type Incident,
  loadScenarioFile,
  type LoopSpec,
  measurePlan,
  type ModuleRecord,
  type ModuleSpec,
  type ReplicationResult,
  readLog,
  type Scenario,
  sessionsOf,
  showLog,
  simulate,
} from '@lapwright/sim-core';
import { describe, expect, it } from 'vitest';

/*
 * What the simulator writes into a log and what is read back must be what it did, number by number: compared here with
 * what an observer of the same show counts, who knows nothing of logs.
 */

const milliseconds = (time: number): number => Math.round(time * 1000) / 1000;
const sum = (values: Iterable<number>): number => [...values].reduce((total, value) => total + value, 0);
const length = (stretches: ModuleRecord['watched']): number =>
  sum(stretches.map(({ from, to }) => to - from));

interface Seen {
  readonly result: ReplicationResult;
  readonly incidents: readonly Incident[];
  /** When balls left the mechanism of place 0. */
  readonly releases: readonly { readonly at: number; readonly balls: number }[];
}

function watch(spec: LoopSpec, seed: number): Seen {
  const incidents: Incident[] = [];
  const releases: { at: number; balls: number }[] = [];
  let gone = 0;
  let leaked = 0;
  const result = simulate(spec, {
    seed,
    plan: measurePlan(spec),
    log: (incident) => {
      incidents.push(incident);
      if (incident.kind === 'leaks') leaked += incident.balls ?? 0;
    },
    observe: (view) => {
      const now = view.passes + leaked;
      if (now > gone) releases.push({ at: milliseconds(view.now), balls: now - gone });
      gone = now;
    },
  });
  return { result, incidents, releases };
}

const lift: ModuleSpec = {
  id: 'old-mill',
  basket: { capacity: 150, order: 'fifo', whenFull: { kind: 'spill' } },
  drive: { kind: 'continuous' },
  batch: 1,
  catch: 1,
  cycle: { family: 'constant', value: 2.5 },
  travel: { family: 'constant', value: 5 },
  leak: 0,
  stops: [],
};

describe('the log of a bench', () => {
  const { modules } = loadScenarioFile('scenarios/bench-one.yaml').spec;
  const [module = lift] = modules;
  const shy: ModuleSpec = {
    ...module,
    batch: 1,
    catch: 0.8,
    leak: 0.01,
    stops: module.stops.map((stop) => ({ ...stop, drops: 0.5 })),
  };

  it.each<[string, ModuleSpec]>([
    ['lantern-stairs', module],
    ['one that misses, leaks and drops', shy],
    ['one that waits for ten', { ...module, drive: { kind: 'demand', startAt: 10 }, batch: 10 }],
  ])('of %s says what happened', (_, one) => {
    const options = { seconds: 7200, seed: 5 };
    const log = readLog([{ file: 'bench.csv', content: benchLog(one, options) }]);
    const { result, incidents, releases } = watch(benchSpec(one, options), options.seed);
    expect(log.problems.filter(({ severity }) => severity === 'left out')).toEqual([]);
    expect(log.used).toBe(log.rows);
    const [record] = log.records;
    expect(record?.watched).toEqual([{ from: 0, to: 7200 }]);
    expect(record?.batches.filter(({ balls }) => balls > 0).map(({ at, balls }) => ({ at, balls }))).toEqual(
      releases,
    );
    expect(sum(record?.batches.map(({ balls }) => balls) ?? [])).toBe(
      sum(result.modules.handedOn) + sum(result.modules.leaks),
    );
    const begun = incidents.filter(({ kind }) => kind === 'stops');
    const ended = incidents.filter(({ kind }) => kind === 'cleared' || kind === 'freed_itself');
    expect(begun.length).toBeGreaterThan(0);
    expect(
      record?.stops.map(({ cause, from, cleared, dropped }) => ({ cause, from, cleared, dropped })),
    ).toEqual(
      begun.map(({ time, cause, balls }, i) => ({
        cause,
        from: milliseconds(time),
        cleared: ended[i] === undefined ? null : milliseconds(ended[i].time),
        dropped: balls,
      })),
    );
    const stopped = sum(record?.stops.map(({ from, cleared }) => (cleared ?? 7200) - from) ?? []);
    expect(stopped).toBeCloseTo(7200 * (result.modules.stoppedShare[0] ?? NaN), 1);
  });

  it('of a cycle of 2.5 s has a batch every 2.5 s', () => {
    const log = readLog([{ file: 'a.csv', content: benchLog(lift, { seconds: 600, seed: 1 }) }]);
    const times = log.records[0]?.batches.map(({ at }) => at) ?? [];
    expect(times.length).toBeGreaterThanOrEqual(238);
    for (let i = 1; i < times.length; i++) expect((times[i] ?? 0) - (times[i - 1] ?? 0)).toBeCloseTo(2.5, 6);
  });

  it('keeps the basket as full as asked', () => {
    for (const fill of [0.3, 0.9]) {
      const content = benchLog(module, { seconds: 1800, seed: 2, fill, batches: true });
      const levels =
        readLog([{ file: 'a.csv', content }]).records[0]?.batches.map(({ level = NaN }) => level) ?? [];
      expect(Math.abs(sum(levels) / levels.length - fill)).toBeLessThan(0.05);
    }
  });

  it('leaves batches out when nobody counts them', () => {
    const [record] = readLog([
      { file: 'a.csv', content: benchLog(module, { seconds: 7200, seed: 5, batches: false }) },
    ]).records;
    expect(record?.batches).toEqual([]);
    expect(record?.stops.length).toBeGreaterThan(0);
  });
});

describe('the log of a show', () => {
  it.each(['village-hall', 'two-days', 'pull-and-spare', 'plain-chute'])(
    'of %s says what happened',
    (name) => {
      const scenario = loadScenarioFile(`scenarios/${name}.yaml`);
      const spec: LoopSpec = { ...scenario.spec, show: { ...scenario.spec.show, warmUpSeconds: 0 } };
      const { show } = spec;
      const log = readLog([{ file: 'show.csv', content: showLog(scenario, { seed: 7, decimals: 3 }) }]);
      const { result, incidents } = watch(spec, 7);
      expect(log.problems.filter(({ severity }) => severity === 'left out')).toEqual([]);
      expect(log.used).toBe(log.rows);
      expect(log.sessions).toEqual(
        sessionsOf(show).map(({ fromSeconds, clockSeconds, toSeconds }) => ({
          from: clockSeconds,
          to: clockSeconds + toSeconds - fromSeconds,
        })),
      );
      const record = (id: string): ModuleRecord | undefined =>
        log.records.find(({ module }) => module === id);
      for (const [m, { id }] of spec.modules.entries()) {
        const own = record(id);
        expect(own?.stops.length, id).toBe(result.modules.stops[m]);
        expect(own?.stops.map(({ cause }) => cause)).toEqual(ownStops(incidents, m));
        expect(length(own?.watched ?? []) / show.seconds).toBeCloseTo(
          1 - (result.modules.pulledShare[m] ?? NaN),
          2,
        );
      }
      for (const [k, { id }] of (spec.spares ?? []).entries()) {
        const used = result.spares.inUseShare[k] ?? NaN;
        expect(record(id)?.stops.length ?? 0).toBe(result.spares.stops[k]);
        expect(length(record(id)?.watched ?? []) / show.seconds).toBeCloseTo(used, 2);
      }
      const spilled = sum(incidents.map(({ kind, balls = 0 }) => (kind === 'spills' ? balls : 0)));
      const logged = sum(log.records.flatMap(({ spills }) => spills.map(({ balls }) => balls)));
      // What falls where a plain chute stands is only a note.
      if (name === 'plain-chute') expect(logged).toBeLessThanOrEqual(spilled);
      else expect(logged).toBe(spilled);
      expect(log.counter.at(-1)?.reading).toBe(result.passes);
      expect(log.shifts.length).toBe(incidents.filter(({ kind }) => kind === 'duty').length);
    },
  );

  it('of one ball and no stops has laps of 14 s', () => {
    // Two lifts that wait for a ball: 2 s up and 5 s down each.
    const waiting: ModuleSpec = {
      ...lift,
      drive: { kind: 'demand', startAt: 1 },
      cycle: { family: 'constant', value: 2 },
    };
    const spec: LoopSpec = {
      name: 'One ball',
      modules: [waiting, { ...waiting, id: 'other' }],
      supply: { kind: 'charge', placed: [1, 0] },
      counter: 0,
      crew: { duty: [{ fromSeconds: 0, minders: 0 }], rule: 'first_come' },
      show: { seconds: 3600, warmUpSeconds: 0 },
    };
    const scenario: Scenario = {
      name: 'One ball',
      spec,
      sideTable: [],
      source: { file: 'a.yaml', sha256: '' },
    };
    const { laps, counter } = readLog([
      { file: 'a.csv', content: showLog(scenario, { seed: 1, readings: 600 }) },
    ]);
    // It passes at 2 s and then every 14 s, so for the last time at 3600 - 12 - ... : (3600 - 2) / 14 = 257.
    expect(laps.map(({ seconds }) => seconds)).toEqual(Array.from({ length: 257 }, () => 14));
    // After 600 s: at 2, 16, ... 590 s, that is 43 times.
    expect(counter[0]).toEqual({ at: 600, reading: 43, run: 0 });
  });
});

/** Causes of the stops at a place while its own module stood there. */
function ownStops(incidents: readonly Incident[], place: number): (string | undefined)[] {
  const causes: (string | undefined)[] = [];
  let away = false;
  for (const { kind, module, cause } of incidents) {
    if (module !== place) continue;
    if (kind === 'pulled') away = true;
    else if (kind === 'put_back') away = false;
    else if (kind === 'stops' && !away) causes.push(cause);
  }
  return causes;
}
