import { describe, expect, it } from 'vitest';
import {
  applyChanges,
  type ChangedScenario,
  loadScenarioFile,
  type ModuleSpec,
  parseScenario,
} from '../../../packages/sim-core/src/index.js';
import { small, SMALL, typed } from './smallLoop.js';

const DEMO = 'scenarios/demo.yaml';

function demo(...words: readonly string[]): ChangedScenario {
  return applyChanges(DEMO, typed(...words));
}

function ids({ spec }: ChangedScenario): string[] {
  return spec.modules.map(({ id }) => id);
}

function moduleOf({ spec, sideTable }: ChangedScenario, id: string): ModuleSpec {
  const found = [...spec.modules, ...sideTable, ...(spec.spares ?? [])].find((module) => module.id === id);
  if (!found) throw new Error(`no ${id}`);
  return found;
}

function placed({ spec: { supply } }: ChangedScenario): readonly number[] {
  return supply.kind === 'charge' ? supply.placed : [];
}

describe('--set', () => {
  it('gives the scenario that the changed file would give', () => {
    const edits: [words: string, from: string, to: string][] = [
      ['modules.tipper.basket=25', 'basket: 20', 'basket: 25'],
      ['modules.lift.batch=3', 'batch: 2', 'batch: 3'],
      [
        'modules.lift.cycle={ gamma: { mean: 2 s, cv: 0.2 } }',
        'lognormal: { mean: 1.8 s, cv: 0.1 }',
        'gamma: { mean: 2 s, cv: 0.2 }',
      ],
      ['modules.lift.cycle.lognormal.cv=0.3', 'cv: 0.1', 'cv: 0.3'],
      ['modules.lift.cycle=2 s', '{ lognormal: { mean: 1.8 s, cv: 0.1 } }', '2 s'],
      ['modules.stair.basket.when_full=spill', '{ return: { to: tipper, time: 2 s } }', 'spill'],
      [
        'modules.stair.basket.when_full.back_up.holds=9',
        'return: { to: tipper, time: 2 s }',
        'back_up: { holds: 9 }',
      ],
      ['modules.wheel.lever.watches=[stair]', '[stair, lift]', '[stair]'],
      ['modules.wheel.lever.watches[1]=tipper', '[stair, lift]', '[stair, tipper]'],
      ['modules.7.travel=8 s', 'travel: 5 s', 'travel: 8 s'],
      ['templates.plain.travel=6 s', 'travel: 4 s', 'travel: 6 s'],
      ['crew.shifts[1].minders=3', 'minders: 2', 'minders: 3'],
      ['crew.sweep.into=stair', 'into: lift', 'into: stair'],
      ['charge=44', '{ baskets: { lift: 10, tipper: 18, wheel: 20, stair: 12 } }', '44'],
      ['charge.balls=55', '{ baskets: { lift: 10, tipper: 18, wheel: 20, stair: 12 } }', '55'],
      ['charge.baskets.lift=12', 'lift: 10', 'lift: 12'],
      ['counter=wheel', 'counter: lift', 'counter: wheel'],
      ['show.lasts=3 h', 'lasts: 2 h', 'lasts: 3 h'],
      ['show.warm_up=10 min', 'lasts: 2 h', 'lasts: 2 h, warm_up: 10 min'],
      [
        'order=[wheel, lift, stair, tipper]',
        '[lift, tipper, wheel, stair, 7]',
        '[wheel, lift, stair, tipper]',
      ],
      ['name="a: b"', 'Small loop', '"a: b"'],
    ];
    for (const [words, from, to] of edits) {
      const edited = SMALL.replace(from, to);
      expect(edited, words).not.toBe(SMALL);
      expect(small('--set', words).spec, words).toEqual(parseScenario(edited).spec);
    }
  });

  it('works on one module where the value comes from its template, and keeps the rest of it', () => {
    const changed = small('--set', 'modules.lift.stops.jam.per_ball=0.002');
    const before = parseScenario(SMALL).spec.modules;
    expect(moduleOf(changed, 'lift').stops).toEqual([
      { ...before[0]?.stops[0], trigger: { kind: 'per_ball', probability: 0.002 } },
      before[0]?.stops[1],
    ]);
    expect(changed.spec.modules.slice(1)).toEqual(before.slice(1));
  });

  it('works where a file uses an alias, without touching what it is an alias of', () => {
    const changed = small('--set', 'modules.idle.travel=9 s');
    expect(moduleOf(changed, 'idle').travel).toEqual({ family: 'constant', value: 9 });
    expect(moduleOf(changed, 'tipper').travel).toEqual({ family: 'constant', value: 4 });
  });

  it('puts the keys out that cannot stand beside the new one', () => {
    expect(
      small('--set', 'modules.lift.stops.jam.per_cycle=0.01').spec.modules[0]?.stops[0]?.trigger,
    ).toEqual({
      kind: 'per_cycle',
      probability: 0.01,
    });
    expect(small('--set', 'crew.minders=2').spec.crew.duty).toEqual([{ fromSeconds: 0, minders: 2 }]);
    expect(moduleOf(small('--set', 'modules.lift.cycle.exponential.mean=3 s'), 'lift').cycle).toEqual({
      family: 'exponential',
      mean: 3,
    });
  });

  it('keeps the balls of a basket given by its number alone when more is said of it', () => {
    expect(moduleOf(small('--set', 'modules.tipper.basket.order=mixed'), 'tipper').basket).toEqual({
      capacity: 20,
      order: 'mixed',
      whenFull: { kind: 'spill' },
    });
    expect(moduleOf(small('--set', 'spares.second.basket.order=mixed'), 'second').basket).toEqual({
      capacity: 60,
      order: 'mixed',
      whenFull: { kind: 'spill' },
    });
  });

  it('adds a cause of stopping, and a module', () => {
    const added = small(
      '--set',
      'modules.lift.stops.slip={ per_cycle: 0.1, itself: 3 s }',
      '--set',
      'modules.late={ like: plain }',
      '--with',
      'late',
      '--after',
      'tipper',
    );
    expect(moduleOf(added, 'lift').stops.map(({ id }) => id)).toEqual(['jam', 'lunch', 'slip']);
    expect(ids(added)).toEqual(['lift', 'tipper', 'late', 'wheel', 'stair', '7']);
  });
});

describe('places', () => {
  it('--swap, --move, --without and --with change the order and nothing of the modules', () => {
    expect(ids(small('--swap', 'lift,stair'))).toEqual(['stair', 'tipper', 'wheel', 'lift', '7']);
    expect(ids(small('--move', 'lift', '--after', 'stair'))).toEqual([
      'tipper',
      'wheel',
      'stair',
      'lift',
      '7',
    ]);
    expect(ids(small('--move', '7', '--before', 'lift'))).toEqual(['7', 'lift', 'tipper', 'wheel', 'stair']);
    expect(ids(small('--with', 'idle', '--before', 'lift'))).toEqual([
      'idle',
      'lift',
      'tipper',
      'wheel',
      'stair',
      '7',
    ]);
    const without = small('--without', '7');
    expect(ids(without)).toEqual(['lift', 'tipper', 'wheel', 'stair']);
    expect(without.sideTable.map(({ id }) => id)).toEqual(['idle', '7']);
  });

  it('keep what one module says of another', () => {
    const swapped = small('--swap', 'lift,stair');
    expect(swapped.spec.counter).toBe(3);
    expect(moduleOf(swapped, 'wheel').lever?.watches).toEqual([0, 3]);
    expect(moduleOf(swapped, 'stair').basket.whenFull).toMatchObject({ kind: 'return', to: 1 });
  });

  it('are made one after the other, in the order typed', () => {
    expect(ids(small('--swap', 'lift,tipper', '--move', 'lift', '--after', '7'))).toEqual([
      'tipper',
      'wheel',
      'stair',
      '7',
      'lift',
    ]);
    expect(ids(small('--move', 'lift', '--after', '7', '--swap', 'lift,tipper'))).toEqual([
      'lift',
      'wheel',
      'stair',
      '7',
      'tipper',
    ]);
  });

  it('may pass through a scenario that could not be used', () => {
    const needed = ['--without', 'lift'];
    const mend = ['counter=wheel', 'crew.sweep.into=wheel', 'modules.wheel.lever.watches=[stair]'].flatMap(
      (words) => ['--set', words],
    );
    const expected = ['tipper', 'wheel', 'stair', '7'];
    expect(ids(small(...needed, ...mend))).toEqual(expected);
    expect(ids(small(...mend, ...needed))).toEqual(expected);
  });
});

describe('the balls of a module that is taken out', () => {
  it('go to the others, one to each with room, from the next module on, round and round', () => {
    const filled = ['--set', 'charge.baskets.7=7'];
    // 10, 18 of 20, 20, 12 and the 7 of module 7: to lift, tipper, wheel, stair, then lift, tipper, wheel.
    expect(placed(small(...filled, '--without', '7'))).toEqual([12, 20, 22, 13]);
    // Eleven: tipper is full after two, so the others get three each.
    expect(placed(small('--set', 'charge.baskets.7=11', '--without', '7'))).toEqual([13, 20, 23, 15]);
  });

  it('stay as many as they were, also when the charge is one number', () => {
    const total = (scenario: ChangedScenario): number =>
      placed(scenario).reduce((sum, balls) => sum + balls, 0);
    expect(
      total(
        small(
          '--set',
          'modules.stair.basket.when_full=spill',
          '--set',
          'modules.wheel.lever.watches=[lift]',
          '--without',
          'stair',
        ),
      ),
    ).toBe(60);
    expect(total(small('--set', 'charge=90', '--without', '7'))).toBe(90);
    expect(total(small('--without', '7'))).toBe(60);
  });
});

describe('--stops-off', () => {
  it('takes all stops from one module and leaves the rest of it and of the others as they are', () => {
    const before = parseScenario(SMALL).spec.modules;
    const changed = small('--stops-off', 'tipper');
    expect(changed.spec.modules).toEqual(
      before.map((module) => (module.id === 'tipper' ? { ...module, stops: [] } : module)),
    );
  });

  it('does so for a spare', () => {
    const before = parseScenario(SMALL).spec.spares?.[0];
    expect(moduleOf(small('--stops-off', 'second'), 'second')).toEqual({ ...before, stops: [] });
  });
});

describe('the demo', () => {
  const before = loadScenarioFile(DEMO);

  it('takes every kind of change', () => {
    expect(moduleOf(demo('--set', 'modules.biscuit-tin.basket=150'), 'biscuit-tin').basket.capacity).toBe(
      150,
    );
    expect(demo('--set', 'crew.minders=2').spec.crew.duty).toEqual([{ fromSeconds: 0, minders: 2 }]);
    expect(placed(demo('--set', 'charge=600')).reduce((sum, balls) => sum + balls, 0)).toBe(600);
    expect(
      moduleOf(demo('--set', 'modules.biscuit-tin.stops.jam.per_cycle=0.002'), 'biscuit-tin').stops[0],
    ).toMatchObject({
      trigger: { kind: 'per_cycle', probability: 0.002 },
      remedy: { kind: 'crew' },
    });
    const swapped = ids(demo('--swap', 'drunken-stairs,long-jump'));
    const order = before.spec.modules.map(({ id }) => id);
    expect(swapped.indexOf('drunken-stairs')).toBe(order.indexOf('long-jump'));
    expect(swapped.indexOf('long-jump')).toBe(order.indexOf('drunken-stairs'));
    expect(ids(demo('--move', 'ladle', '--before', 'gatehouse')).slice(0, 2)).toEqual(['ladle', 'gatehouse']);
    expect(ids(demo('--without', 'moth-carousel'))).toEqual(order.filter((id) => id !== 'moth-carousel'));
    expect(ids(demo('--without', 'ladle', '--with', 'ladle', '--after', 'spindle'))).toEqual(order);
    expect(moduleOf(demo('--stops-off', 'long-jump'), 'long-jump').stops).toEqual([]);
    expect(moduleOf(demo('--stops-off', 'long-jump'), 'long-jump').pull).toEqual(
      before.spec.modules.find(({ id }) => id === 'long-jump')?.pull,
    );
  });

  it('says how to get it again, and in plain words what is different', () => {
    const changed = demo(
      '--set',
      'modules.biscuit-tin.basket=150',
      '--swap',
      'drunken-stairs,long-jump',
      '--set',
      'charge=600',
      '--set',
      'crew.minders=2',
      '--set',
      'modules.biscuit-tin.stops.jam.per_cycle=0.002',
      '--move',
      'ladle',
      '--before',
      'gatehouse',
      '--without',
      'spindle',
      '--with',
      'spindle',
      '--after',
      'ladle',
      '--stops-off',
      'long-jump',
    );
    expect(changed.source).toEqual({
      ...before.source,
      changes: [
        '--set modules.biscuit-tin.basket=150',
        '--swap drunken-stairs,long-jump',
        '--set charge=600',
        '--set crew.minders=2',
        '--set modules.biscuit-tin.stops.jam.per_cycle=0.002',
        '--move ladle --before gatehouse',
        '--without spindle',
        '--with spindle --after ladle',
        '--stops-off long-jump',
      ],
    });
    // 8 x 8 studs of 8 mm by 10 bricks of 9.6 mm, six tenths filled with balls of 14 mm.
    const held = Math.floor((64 * 64 * 96 * 0.6) / ((Math.PI / 6) * 14 ** 3));
    expect(changed.changesInWords).toEqual([
      `biscuit-tin's basket holds 150 instead of ${held}`,
      'drunken-stairs and long-jump change places',
      '600 balls go round instead of 690',
      '2 minders are on duty instead of shifts',
      "biscuit-tin's stops.jam.per_cycle is 0.002 instead of 0.0004",
      'ladle moves to the place right before gatehouse',
      'spindle goes to the side table',
      'spindle comes from the side table to the place right behind ladle',
      'long-jump never stops',
    ]);
  });
});
