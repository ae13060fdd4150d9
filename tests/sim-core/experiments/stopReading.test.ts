import { describe, expect, it } from 'vitest';
import { loadScenarioFile } from '@lapwright/sim-core';
import { PreparedLoop } from '../../../packages/sim-core/src/model/index.js';
import {
  type ImaginedStop,
  ImaginedStops,
} from '../../../packages/sim-core/src/experiments/imaginedStops.js';
import {
  downstreamOf,
  readFlood,
  readStop,
  stoppedLoop,
  type StopReading,
  toStopShow,
} from '../../../packages/sim-core/src/experiments/index.js';
import { TableTracker } from '../../../packages/sim-core/src/experiments/tableTracker.js';
import { toNumbers } from '../../../packages/sim-core/src/experiments/stopShow.js';
import { type Incident, simulate } from '../../../packages/sim-core/src/model/index.js';
import type { LoopSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import {
  journalLine,
  readJournal,
  ValueTable,
  journalHead,
} from '../../../packages/sim-core/src/studies/index.js';
import { chancyLoop } from '../studies/stopLoops.js';

const SCENARIOS = [
  'back-up',
  'crowding',
  'lever',
  'overflow-chute',
  'plain-chute',
  'pull-and-spare',
  'shifts',
  'top-up',
  'two-days',
];
const specOf = (name: string): LoopSpec => loadScenarioFile(`scenarios/${name}.yaml`).spec;

/** Everything that an observer and the log see of a show until a moment. */
function until(spec: LoopSpec, replication: number, seconds: number): string[] {
  const seen: string[] = [];
  const tell = (incident: Incident): void =>
    void (incident.time < seconds && seen.push(JSON.stringify(incident)));
  simulate(spec, {
    seed: 3,
    replication,
    log: tell,
    observe: (view) => {
      if (view.now >= seconds) return;
      const m = view.module;
      const there =
        m < 0 ? [] : [view.level(m), view.held(m), view.onRunOut(m), view.doing(m), view.inPlace(m)];
      seen.push([view.now, view.eventClass, m, ...there, view.floor, view.waitingJobs].join());
    },
  });
  return seen;
}

describe('a stop put into a show', () => {
  it.each(SCENARIOS)('changes nothing before it begins: %s', (name) => {
    const whole = specOf(name);
    const spec = { ...whole, show: { ...whole.show, seconds: 2400, warmUpSeconds: 0, sessions: [] } };
    const { sessions: _none, ...show } = spec.show;
    const cut = { ...spec, show };
    for (let place = 0; place < cut.modules.length; place++) {
      const reading: StopReading = {
        kind: 'stop',
        place,
        atSeconds: 1500,
        remedy: { kind: 'itself', time: { family: 'constant', value: 300 } },
      };
      const [without, withStop] = [cut, stoppedLoop(cut, reading)].map((one) => until(one, place, 1500));
      expect(without?.length).toBeGreaterThan(1000);
      expect(withStop).toEqual(without);
    }
  });

  it('changes nothing at all when its moment lies behind the end', () => {
    const spec = chancyLoop();
    const reading: StopReading = {
      kind: 'stop',
      place: 1,
      atSeconds: 8000,
      remedy: { kind: 'itself', time: { family: 'exponential', mean: 300 } },
    };
    expect(simulate(stoppedLoop(spec, reading), { seed: 1 })).toEqual(simulate(spec, { seed: 1 }));
  });

  it('loses no ball, and spills what came beyond the room', () => {
    const spec = chancyLoop({ show: { seconds: 1500, warmUpSeconds: 0 } });
    for (let replication = 0; replication < 20; replication++) {
      const reading: StopReading = {
        kind: 'stop',
        place: 4,
        atSeconds: 900,
        remedy: { kind: 'itself', time: { family: 'constant', value: 200 } },
      };
      let came = 0;
      let level = NaN;
      let atEnd = NaN;
      let spilled = 0;
      const stands = (now: number): boolean => now > 900 && now < 1100;
      let now = 0;
      const tracker = new TableTracker(spec, (place, balls) => {
        if (place === 4 && stands(now)) came += balls;
      });
      simulate(stoppedLoop(spec, reading), {
        seed: 9,
        replication,
        audit: true,
        log: ({ time, kind, module, balls = 0 }) => {
          if (kind === 'spills' && module === 4 && stands(time)) spilled += balls;
        },
        observe: (view) => {
          now = view.now;
          if (now <= 900) level = view.level(4);
          if (now < 1100) atEnd = view.level(4);
          tracker.observe(view);
        },
      });
      expect(came).toBeGreaterThan(0);
      expect(level + came).toBe(atEnd + spilled);
    }
  });
});

describe('what comes to a basket', () => {
  it.each(SCENARIOS)('is what the one before has handed on, less what is on the way: %s', (name) => {
    const whole = specOf(name);
    const spec = { ...whole, show: { ...whole.show, warmUpSeconds: 0 } };
    const n = spec.modules.length;
    const came = new Float64Array(n);
    const byHand = new Float64Array(n);
    const tracker = new TableTracker(spec, (place, balls, how) => {
      const list = how === 'handed' ? came : byHand;
      list[place] = (list[place] ?? 0) + balls;
    });
    const onTheWay = new Float64Array(n);
    const onChutes = new Float64Array(n);
    const floods: string[] = [];
    const { modules, entered, toppedUp } = simulate(spec, {
      seed: 2,
      log: ({ kind, balls = 0 }) => kind === 'swept' && floods.push(String(balls)),
      observe: (view) => {
        tracker.observe(view);
        for (let m = 0; m < n; m++) {
          onTheWay[m] = view.onRunOut(m);
          onChutes[m] = view.onChutes(m);
        }
      },
    });
    for (let m = 0; m < n; m++) {
      const before = (m + n - 1) % n;
      const head = m === 0 && spec.supply.kind === 'feed';
      const sent = head ? entered : (modules.handedOn[before] ?? 0) - (onTheWay[before] ?? 0);
      const back = spec.modules.reduce(
        (sum, { basket: { whenFull } }, from) =>
          whenFull.kind === 'return' && whenFull.to === m
            ? sum + (modules.returned[from] ?? 0) - (onChutes[from] ?? 0)
            : sum,
        0,
      );
      expect(came[m], spec.modules[m]?.id).toBe(sent + back);
    }
    const swept = floods.reduce((sum, balls) => sum + Number(balls), 0);
    expect(byHand.reduce((sum, balls) => sum + balls, 0)).toBe(swept + toppedUp);
  });
});

describe('two ways to the time of a flood', () => {
  it('agree to the nanosecond, show by show, where nothing else depends on the stop', () => {
    // Between two sweeps: what is swept up hangs on what fell, and that on the stop.
    const spec = chancyLoop({ show: { seconds: 1800, warmUpSeconds: 0 } });
    let floods = 0;
    for (let replication = 0; replication < 60; replication++) {
      for (const place of [0, 1, 4]) {
        const show = toStopShow(
          readStop(
            spec,
            {
              kind: 'stop',
              place,
              atSeconds: 845,
              remedy: { kind: 'itself', time: { family: 'constant', value: 110 } },
            },
            4,
            replication,
          ),
        );
        if (!show.began) continue;
        const direct = show.firstExtraSpill[place] ?? Infinity;
        if (direct < Infinity) floods++;
        if (direct < Infinity || show.fullAfter < 110)
          expect(show.fullAfter, `show ${replication}, place ${place}`).toBeCloseTo(direct, 6);
      }
    }
    expect(floods).toBeGreaterThan(60);
  });

  it('say never where all balls fit into one basket', () => {
    const base = chancyLoop({ show: { seconds: 3600, warmUpSeconds: 0 } });
    const modules = base.modules.map((module, m) =>
      m === 0 ? { ...module, basket: { ...module.basket, capacity: 120 } } : module,
    );
    const spec: LoopSpec = { ...base, modules };
    const stops: ImaginedStop[] = [];
    const imagined = new ImaginedStops(spec);
    simulate(spec, {
      seed: 1,
      observe: (view) => {
        if (stops.length === 0 && view.now > 100) stops.push(imagined.begin(0, 100));
        imagined.observe(view);
      },
    });
    // Though far more than 120 balls come in an hour, since the module runs.
    expect(stops[0]).toMatchObject({ after: Infinity, elsewhere: 0 });
    const values = readFlood(
      new PreparedLoop(spec),
      { kind: 'flood', fromSeconds: 600, toSeconds: 1800, moments: 3 },
      1,
      0,
    );
    expect(values).toHaveLength(3 * spec.modules.length);
    for (const i of [0, 1, 2]) expect(values[i * spec.modules.length]).toBe(-1);
  });
});

describe('a show that was read', () => {
  it('goes through a journal unchanged', () => {
    const spec = chancyLoop({ show: { seconds: 1200, warmUpSeconds: 0 } });
    const reading: StopReading = {
      kind: 'stop',
      place: 0,
      atSeconds: 900,
      remedy: { kind: 'itself', time: { family: 'constant', value: 120 } },
    };
    const numbers = readStop(spec, reading, 1, 0);
    expect(toNumbers(toStopShow(numbers))).toEqual(numbers);
    const table = new ValueTable();
    readJournal(`${journalHead(1)}\n${journalLine('k', 0, numbers)}\n`, 'x', 1, table);
    expect(table.row('k', 0)).toEqual(numbers);
    expect(toStopShow(numbers).firstExtraSpill).toHaveLength(5);
    expect(toStopShow(numbers).peakAfter).toHaveLength(downstreamOf(spec, 0).length);
  });

  it('watches the next three baskets, fewer in a short loop or at the end of a chain', () => {
    const loop = chancyLoop();
    expect(downstreamOf(loop, 3)).toEqual([4, 0, 1]);
    const two = { ...loop, modules: loop.modules.slice(0, 2) };
    expect(downstreamOf(two, 1)).toEqual([0]);
    const feed = { kind: 'feed' as const, balls: 1, every: { family: 'constant' as const, value: 1 } };
    expect(downstreamOf({ ...loop, supply: feed }, 3)).toEqual([4]);
  });
});
