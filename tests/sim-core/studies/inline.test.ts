import { describe, expect, it } from 'vitest';
import { houseRules, showsHere } from '../../../packages/sim-core/src/experiments/index.js';
import { simulate } from '../../../packages/sim-core/src/model/index.js';
import type { LoopSpec, ModuleSpec, PullSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { inItsPlace } from '../../../packages/sim-core/src/studies/inline/standIn.js';
import { type Inline, inline, plainChuteFor, Study } from '../../../packages/sim-core/src/studies/index.js';
import { chain, holds, loop, module, seconds } from '../../build.js';

const HOURS = { seconds: 4 * 3600, warmUpSeconds: 0 };

/** A chain of three sturdy lifts that get a ball a second, with something in the middle. */
function table(middle: readonly ModuleSpec[]): LoopSpec {
  const lift = (id: string): ModuleSpec => module(id, { basket: holds(50), cycle: seconds(0.5) });
  return chain([lift('first'), ...middle, lift('last')], 1, { show: HOURS });
}

function ask(own: ModuleSpec, rules: Parameters<typeof houseRules>[0], replications = 4): Promise<Inline> {
  const study = new Study({ seed: 1, source: showsHere() });
  return inline(
    study,
    {
      module: own.id,
      places: [{ label: 'where it is', spec: table([own]) }],
      now: 0,
      without: table([]),
      standIn: plainChuteFor(own),
    },
    { rules: houseRules(rules), replications },
  );
}

describe('inline or not, by pencil', () => {
  it('keeps out a module that is slower than what comes in', async () => {
    // 1 ball a second comes, 0.5 a second go: 1,800 an hour fall but for the 50 that its basket holds, in 4 hours.
    const found = await ask(module('snail', { basket: holds(50), cycle: seconds(2) }), {
      spills_per_hour: 80,
    });
    expect(found.with_it.verdict).toBe('side table');
    const [spills] = found.with_it.rules;
    expect(Math.abs((spills?.estimate.mean ?? NaN) - (1800 - 50 / 4))).toBeLessThan(2);
    expect(found.without_it.verdict).toBe('inline');
    expect(found.with_stand_in.verdict).toBe('inline');
    // All that falls with it does not fall without it.
    expect(found.without_it.differences[0]?.mean).toBeCloseTo(-(spills?.estimate.mean ?? NaN), 9);
    // It never stops: nothing to be said of stops.
    expect(found.stops).toBe(null);
  });

  it('lets in one that keeps up and never stops, by every rule', async () => {
    const found = await ask(module('hare', { basket: holds(50), cycle: seconds(0.5) }), {
      spills_per_hour: 0,
      overflow_risk: 0.01,
      // A ball a second comes, all of them go through; the last few are on the way at the end.
      least_throughput: 0.99,
      // Three lifts of half a second.
      longest_lap: 1.6,
    });
    // There is no chance in this table: what is not seen in one show is in none.
    expect(found.with_it.rules.map(({ verdict }) => verdict)).toEqual(['kept', 'kept', 'kept', 'kept']);
    const chancy = module('hare', { basket: holds(50), cycle: { family: 'uniform', min: 0.4, max: 0.6 } });
    const open = await ask(chancy, { spills_per_hour: 80, overflow_risk: 0.01 });
    expect(open.with_it.rules.map(({ verdict }) => verdict)).toEqual(['open', 'open']);
    const risk = await ask(module('hare', { basket: holds(50), cycle: seconds(0.5) }), {
      overflow_risk: 0.5,
    });
    expect(risk.with_it.verdict).toBe('inline');
    // Two rules of which one is broken: a lap takes 1.5 s.
    const lap = await ask(module('hare', { basket: holds(50), cycle: seconds(0.5) }), {
      longest_lap: 1.4,
      spills_per_hour: 10,
    });
    expect([lap.with_it.verdict, lap.with_it.decides]).toEqual(['side table', 'longest_lap']);
  });

  it('finds the most stops an hour: each makes as many balls fall as its length in seconds less the basket', async () => {
    // Every stop lasts 60 s; 60 balls come, 20 find room: 40 fall. So 80 an hour are 2 stops. As it is one stop in 15 min
    // of time in the loop without a stop, 60 / 16 = 3.75 an hour: 150 balls.
    const moody = module('moody', {
      basket: holds(20),
      cycle: seconds(0.1),
      stops: [
        {
          id: 'sulk',
          trigger: { kind: 'clock', time: { family: 'exponential', mean: 900 } },
          drops: 0,
          remedy: { kind: 'itself', time: seconds(60) },
        },
      ],
    });
    const { with_it: own, stops } = await ask(moody, { spills_per_hour: 80 }, 24);
    expect(own.verdict).toBe('side table');
    expect(Math.abs((own.rules[0]?.estimate.mean ?? NaN) - 150)).toBeLessThan(15);
    expect(stops?.found).toBe('limit');
    expect(Math.abs((stops?.now ?? NaN) - 3.75)).toBeLessThan(0.5);
    expect(Math.abs((stops?.stops_per_hour.mean ?? NaN) - 2)).toBeLessThan(0.3);
    expect(stops?.stops_per_hour.low).toBeLessThan(2);
    expect(stops?.stops_per_hour.high ?? NaN).toBeGreaterThan(2);
  });

  it('prefers the place where the basket behind it is large, and says what that is worth', async () => {
    // A tipper lets go 30 balls at once: all fit where the next basket holds 60, 20 fall where it holds 10.
    const tipper = module('tipper', {
      basket: holds(60),
      drive: { kind: 'demand', startAt: 30 },
      batch: 30,
      cycle: seconds(3),
    });
    const small = module('small', { basket: holds(10), cycle: seconds(0.5) });
    const large = module('large', { basket: holds(60), cycle: seconds(0.5) });
    const at = (...modules: ModuleSpec[]): LoopSpec => chain(modules, 1, { show: HOURS });
    const found = await inline(
      new Study({ seed: 1, source: showsHere() }),
      {
        module: 'tipper',
        places: [
          { label: 'where it is', spec: at(tipper, small, large) },
          { label: 'after small', spec: at(small, tipper, large) },
        ],
        now: 0,
        without: at(small, large),
        standIn: plainChuteFor(tipper),
      },
      { rules: houseRules({ spills_per_hour: 10 }), replications: 3, searchShows: 8 },
    );
    expect(found.place).toBe('after small');
    expect(found.with_it.verdict).toBe('inline');
    expect(found.search?.best).toBe(1);
    expect(found.gain?.against).toBe('where it is');
    // 120 times an hour 30 balls come at once to a basket of 10 and a lift: at least 19 of them fall.
    expect(found.gain?.difference.mean ?? NaN).toBeLessThan(-120 * 18);
  });

  it('refuses what makes no sense', async () => {
    await expect(ask(module('hare'), {})).rejects.toThrow(/rules/);
    await expect(ask(module('hare'), { spills_per_hour: 1 }, 1)).rejects.toThrow(/replications/);
  });
});

describe('something in the place of a module', () => {
  const spare = (id: string, capacity: number): ModuleSpec => module(id, { basket: holds(capacity) });
  const pull = (...spares: number[]): PullSpec => ({
    outlastsSeconds: 60,
    spares,
    swap: seconds(10),
  });
  const spec = loop(
    [
      module('a', { basket: holds(10), pull: pull(0, 1) }),
      module('b', {
        basket: { capacity: 30, order: 'fifo', whenFull: { kind: 'return', to: 2, time: seconds(1) } },
        pull: pull(0),
      }),
      module('c', { basket: holds(10), pull: pull(1), cycle: seconds(2), travel: seconds(1) }),
    ],
    [5, 25, 5],
    { spares: [spare('stopgap', 18), spare('other', 10)] },
  );

  it('takes a spare from the side table, moves the others up and shares out what its basket cannot hold', () => {
    const [stopgap] = spec.spares ?? [];
    const changed = inItsPlace(spec, 'b', stopgap!);
    expect(changed.modules.map(({ id }) => id)).toEqual(['a', 'stopgap', 'c']);
    expect(changed.spares?.map(({ id }) => id)).toEqual(['other']);
    expect(changed.modules.map((one) => one.pull?.spares)).toEqual([[0], undefined, [0]]);
    // Of 25 balls 18 find room; 5 of the other 7 go into c, 2 into a.
    expect(changed.supply).toEqual({ kind: 'charge', placed: [7, 18, 10] });
    // The chute belongs to the place.
    expect(changed.modules[1]?.basket).toEqual({
      capacity: 18,
      order: 'fifo',
      whenFull: { kind: 'return', to: 2, time: seconds(1) },
    });
    expect(simulate(changed, { seed: 1, replication: 0 }).passes).toBeGreaterThan(0);
  });

  it('can be a plain chute, as quick as the table asks', () => {
    const changed = inItsPlace(spec, 'c', plainChuteFor(spec.modules[2]!));
    expect(changed.spares).toEqual(spec.spares);
    const { passes, modules } = simulate(changed, { seed: 1, replication: 0 });
    // The other two take 1 s for a ball: nothing waits at the chute.
    expect(passes).toBeGreaterThan(3500);
    expect(modules.levelP95[2]).toBeLessThanOrEqual(1);
  });

  it('needs a module that is there', () => {
    expect(() => inItsPlace(spec, 'x', spare('s', 1))).toThrow(/no module of the loop is called x/);
  });
});
