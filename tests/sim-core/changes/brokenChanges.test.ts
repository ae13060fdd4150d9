import { describe, expect, it } from 'vitest';
import { applyChanges, ChangeError, InputError } from '../../../packages/sim-core/src/index.js';
import { problemsOf, small, SMALL, typed } from './smallLoop.js';

/** Words of a command line that cannot be used, and how the line about them begins and what it says. */
const BROKEN: readonly [words: readonly string[], begins: string, says?: RegExp][] = [
  [
    ['--set', 'modules.tipper.basket=-5'],
    '--set modules.tipper.basket=-5: modules.tipper.basket: found -5, but this must be',
    /whole number/,
  ],
  [
    ['--set', 'modules.tipper.basket='],
    '--set modules.tipper.basket=: modules.tipper.basket: the value is missing',
  ],
  [
    ['--set', 'modules.tipper.basket=~'],
    '--set modules.tipper.basket=~: modules.tipper.basket: found nothing',
  ],
  [
    ['--set', 'modules.tipper.basket'],
    '--set modules.tipper.basket: the sign = and a value are missing',
    /--set modules\.tipper\.basket=150/,
  ],
  [['--set', '=3'], '--set =3: the key is missing before the sign ='],
  [
    ['--set', 'modules..basket=3'],
    '--set modules..basket=3: "modules..basket" is no path',
    /a key is missing/,
  ],
  [
    ['--set', 'crew.shifts[x].minders=3'],
    '--set crew.shifts[x].minders=3: "crew.shifts[x].minders" is no path',
    /\[0\]/,
  ],
  [['--set', `${'a.'.repeat(80)}a=3`], '--set a.a.', /nothing stands that deep/],
  [
    ['--set', 'modules.tiper.basket=150'],
    '--set modules.tiper.basket=150: modules.tiper: there is no module "tiper" here.',
    /Did you mean tipper\?/,
  ],
  [
    ['--set', 'modules.second.basket=150'],
    '--set modules.second.basket=150: modules.second: second is a spare',
    /Did you mean spares\.second\.basket\?/,
  ],
  [
    ['--set', 'tipper.basket=150'],
    '--set tipper.basket=150: tipper.basket: tipper stands under modules.',
    /Did you mean modules\.tipper\.basket\?/,
  ],
  [
    ['--set', 'modules.plain.basket=150'],
    '--set modules.plain.basket=150: modules.plain: there is no module "plain"',
    /Did you mean templates\.plain\.basket\?/,
  ],
  [
    ['--set', 'templates.plan.basket=150'],
    '--set templates.plan.basket=150: templates.plan: there is no template "plan"',
    /Did you mean plain\?/,
  ],
  [
    ['--set', 'spares.secnod.basket=150'],
    '--set spares.secnod.basket=150: spares.secnod: there is no spare "secnod"',
    /Did you mean second\?/,
  ],
  [
    ['--set', 'modules.tipper.bascket=150'],
    '--set modules.tipper.bascket=150: modules.tipper.bascket: nothing here is called "bascket".',
    /Did you mean basket\?/,
  ],
  [
    ['--set', 'modles.tipper.basket=150'],
    '--set modles.tipper.basket=150: modles: nothing here is called "modles".',
    /Did you mean modules\?/,
  ],
  [
    ['--set', 'modules.lift.stops.jm.per_ball=0.1'],
    '--set modules.lift.stops.jm.per_ball=0.1: modules.lift.stops.jm: there is no cause of stopping "jm"',
    /Did you mean jam\?/,
  ],
  [
    ['--set', 'modules.lift.stops.jam.per_bal=0.1'],
    '--set modules.lift.stops.jam.per_bal=0.1: modules.lift.stops.jam.per_bal: nothing here',
    /Did you mean per_ball\?/,
  ],
  [
    ['--set', 'modules.lift.stops.jam.per_ball=2'],
    '--set modules.lift.stops.jam.per_ball=2: modules.lift.stops.jam.per_ball: found 2',
  ],
  [
    ['--set', 'modules.lift.cycle=3'],
    '--set modules.lift.cycle=3: modules.lift.cycle: found 3, but this must be a time with its unit',
    /3 s/,
  ],
  [
    ['--set', 'modules.lift.cycle=3,6 s'],
    '--set modules.lift.cycle=3,6 s: modules.lift.cycle: found "3,6 s"',
    /3\.6 s/,
  ],
  [
    ['--set', 'modules.lift.cycle={ lognormal: { mean: 3 s'],
    '--set modules.lift.cycle={ lognormal: { mean: 3 s: modules.lift.cycle: ',
    /a closing quote, bracket or brace is missing/,
  ],
  [
    ['--set', 'modules.lift.cycle={ lognormal: { mean: 3 s } }'],
    '--set modules.lift.cycle={ lognormal: { mean: 3 s } }: modules.lift.cycle.lognormal: the key "cv" is missing',
  ],
  [
    ['--set', 'modules.lift.cycle.gamma.mean=3 s'],
    '--set modules.lift.cycle.gamma.mean=3 s: modules.lift.cycle.gamma: the key "cv" is missing',
  ],
  [
    ['--set', 'modules.lift.cycle={ gamma: { mean: 3 s, mean: 4 s, cv: 1 } }'],
    '--set modules.lift.cycle={ gamma: { mean: 3 s, mean: 4 s, cv: 1 } }: modules.lift.cycle: the key gamma.mean stands twice',
  ],
  [['--set', 'modules.lift.title=*plain'], '--set modules.lift.title=*plain: modules.lift.title: an alias'],
  [
    ['--set', 'modules.lift.title=a\n---\nb'],
    '--set modules.lift.title=a --- b: modules.lift.title: this is more than one value',
  ],
  [['--set', 'modules.lift.start_at=3'], '--set modules.lift.start_at=3: ', /the drive is continuous/],
  [
    ['--set', 'modules.lift=3'],
    '--set modules.lift=3: modules.lift: found 3, but this must be a group of keys',
  ],
  [
    ['--set', 'modules.tipper.like=plian'],
    '--set modules.tipper.like=plian: modules.tipper.like: there is no template "plian"',
    /Did you mean plain\?/,
  ],
  [['--set', 'modules.tipper.start_at=30'], '--set modules.tipper.start_at=30: ', /it would never start/],
  [
    ['--set', 'modules.tipper.basket=10'],
    '--set modules.tipper.basket=10: small.yaml:3:',
    /18 balls are put into this basket, but it holds 10/,
  ],
  [
    ['--set', 'charge=700'],
    '--set charge=700: charge: the charge is 700 balls, but all baskets together hold',
  ],
  [
    ['--set', 'charge.baskets.idle=3'],
    '--set charge.baskets.idle=3: charge.baskets.idle: idle is on the side table',
  ],
  [
    ['--set', 'crew.shifts.minders=3'],
    '--set crew.shifts.minders=3: crew.shifts.minders: crew.shifts is a list',
    /crew\.shifts\[0\]\.minders/,
  ],
  [
    ['--set', 'crew.shifts[2].minders=3'],
    '--set crew.shifts[2].minders=3: crew.shifts[2].minders: the list crew.shifts has 2 items, counted from [0] to [1]',
  ],
  [['--set', 'modules[0].basket=3'], '--set modules[0].basket=3: modules[0].basket: modules is not a list'],
  [
    ['--set', 'crew.minders=two'],
    '--set crew.minders=two: crew.minders: found "two", but this must be a whole number',
  ],
  [['--set', 'feed={ steady: 1 bps }'], '--set feed={ steady: 1 bps }: ', /top_up|open chain/],
  [
    ['--set', 'order=[lift, tipper, lift, wheel, stair]'],
    '--set order=[lift, tipper, lift, wheel, stair]: order[2]: module lift stands in the order twice',
  ],
  [['--set', 'counter=idle'], '--set counter=idle: counter: idle is on the side table'],
  [['--set', 'show.lasts=6'], '--set show.lasts=6: show.lasts: found 6', /6 h/],
  [['--swap', 'lift'], '--swap lift: two modules are needed with a comma between them'],
  [['--swap', 'lift,tipper,wheel'], '--swap lift,tipper,wheel: two modules are needed'],
  [['--swap', 'lift,lift'], '--swap lift,lift: lift cannot change places with itself'],
  [['--swap', 'lift,idle'], '--swap lift,idle: idle is on the side table', /--with idle --after/],
  [['--swap', 'lift,tiper'], '--swap lift,tiper: there is no module "tiper" here', /Did you mean tipper\?/],
  [['--swap', 'lift,second'], '--swap lift,second: second is a spare'],
  [['--move', 'lift'], '--move lift: it does not say where the module goes', /--move lift --after/],
  [['--after', 'lift'], '--after lift: nothing stands before it that goes after lift', /--move/],
  [
    ['--swap', 'lift,wheel', '--before', 'stair'],
    '--before stair: nothing stands before it that goes before stair',
  ],
  [['--move', 'lift', '--after', 'stair', '--before', '7'], '--before 7: nothing stands before it'],
  [['--move', 'lift', '--after', ''], '--after : the name of a module is missing'],
  [['--without', ' '], '--without  : the name of a module is missing'],
  [['--move', 'lift', '--after', 'lift'], '--move lift --after lift: lift cannot go after itself'],
  [
    ['--move', 'lift', '--after', 'whel'],
    '--move lift --after whel: there is no module "whel"',
    /Did you mean wheel\?/,
  ],
  [
    ['--with', 'lift', '--after', 'stair'],
    '--with lift --after stair: lift is in the loop already',
    /--move lift --after stair/,
  ],
  [['--with', 'second', '--after', 'stair'], '--with second --after stair: second is a spare'],
  [
    ['--with', 'idel', '--after', 'stair'],
    '--with idel --after stair: there is no module "idel"',
    /Did you mean idle\?/,
  ],
  [
    ['--with', 'idle', '--after', 'stiar'],
    '--with idle --after stiar: there is no module "stiar"',
    /Did you mean stair\?/,
  ],
  [['--without', 'idle'], '--without idle: idle is on the side table already'],
  [['--without', 'whel'], '--without whel: there is no module "whel"', /Did you mean wheel\?/],
  [
    ['--without', 'lift'],
    '--without lift: small.yaml:4:10: counter: lift cannot be taken out like this: balls and laps are counted there',
    /--set counter=tipper/,
  ],
  [
    ['--without', 'lift'],
    '--without lift: small.yaml:11:32: crew.sweep.into: lift cannot be taken out like this: what is swept up',
    /--set crew\.sweep\.into=tipper/,
  ],
  [
    ['--without', 'lift'],
    '--without lift: small.yaml:24:',
    /the lever of wheel watches it\. Add --set modules\.wheel\.lever\.watches=\[stair\]\./,
  ],
  [
    ['--without', 'wheel'],
    '--without wheel: small.yaml:12:',
    /balls from the box .* Add --set crew\.top_up\.into=stair/,
  ],
  [
    ['--without', 'tipper'],
    '--without tipper: small.yaml:25:',
    /the overflow chute of stair leads into its basket\. Add --set modules\.stair\.basket\.when_full\.return\.to=wheel/,
  ],
  [['--stops-off', 'whel'], '--stops-off whel: there is no module "whel"', /Did you mean wheel\?/],
];

describe('changes that cannot be used', () => {
  it('are tried in more than sixty ways', () => {
    expect(BROKEN.length).toBeGreaterThanOrEqual(60);
  });

  it.each(BROKEN.map(([words, begins, says]) => ({ words, begins, says, name: begins.slice(0, 90) })))(
    '$name',
    ({ words, begins, says = /./ }) => {
      const lines = problemsOf(() => small(...words));
      const meant = lines.filter((line) => line.startsWith(begins) && says.test(line));
      expect(meant.length, lines.join('\n')).toBe(1);
    },
  );
});

describe('several changes that cannot be used', () => {
  it('are told of all at once, each problem with its change, in the order typed', () => {
    const lines = problemsOf(() =>
      small(
        '--without',
        'lift',
        '--set',
        'modules.tipper.batch=0',
        '--swap',
        'stair,whel',
        '--set',
        'modules.lift.leak=7',
        '--set',
        'modules.tipper.title=A fine one',
      ),
    );
    expect(lines.map((line) => line.split(': ')[0])).toEqual([
      '--without lift',
      '--without lift',
      '--without lift',
      '--set modules.tipper.batch=0',
      '--swap stair,whel',
      '--set modules.lift.leak=7',
    ]);
  });

  it('are not held against a change that a later one mends', () => {
    expect(
      problemsOf(() => small('--set', 'modules.tipper.batch=0', '--set', 'modules.tipper.batch=4')),
    ).toEqual([]);
  });

  it('keep file, line and change apart for programs', () => {
    const problems = (words: readonly string[]): InputError['problems'] => {
      try {
        small(...words);
      } catch (error) {
        if (error instanceof ChangeError) return error.problems;
      }
      return [];
    };
    expect(problems(['--without', 'tipper'])[0]).toMatchObject({
      change: '--without tipper',
      file: 'small.yaml',
      line: 25,
    });
    const [made] = problems(['--set', 'modules.tipper.batch=0']);
    expect(made).toMatchObject({
      change: '--set modules.tipper.batch=0',
      path: 'modules.tipper.batch',
      found: 0,
    });
    expect(made).not.toHaveProperty('line');
  });

  it('are cut at a hundred', () => {
    const words = Array.from({ length: 120 }, (_, i) => ['--set', `key-${i}=1`]).flat();
    const lines = problemsOf(() => small(...words));
    expect(lines.length).toBe(101);
    expect(lines.at(-1)).toContain('and 20 more problems');
  });

  it('are refused when there are too many to make', () => {
    const words = Array.from({ length: 201 }, () => ['--set', 'charge=50']).flat();
    expect(problemsOf(() => small(...words))[0]).toMatch(/201 changes, at most 200/);
  });
});

describe('what else stands in the way', () => {
  it('is the file itself, which is told of as always', () => {
    const broken = { text: SMALL.replace('counter: lift', 'counter: lfit'), file: 'small.yaml' };
    expect(() => applyChanges(broken, typed('--set', 'charge=50'))).toThrow(InputError);
    expect(() => applyChanges(broken, typed('--set', 'charge=50'))).toThrow(/^small\.yaml:4:10: counter: /);
    expect(() => applyChanges('scenarios/no-such.yaml', [])).toThrow(/no such file/);
  });

  it('is the last module', () => {
    const text =
      '{ name: bench, show: { lasts: 1 h }, feed: { steady: 1 bps }, modules: { lift: { basket: 150, cycle: 0.9 s, travel: 5 s } } }';
    expect(problemsOf(() => applyChanges({ text }, typed('--without', 'lift')))).toEqual([
      '--without lift: lift is the only module, nothing would be left of the loop.',
    ]);
    expect(problemsOf(() => applyChanges({ text }, typed('--with', 'other', '--after', 'lift')))).toEqual([
      '--with other --after lift: there is no module "other" here. The side table is empty: every module stands in the loop.',
    ]);
  });

  it('is want of room for the balls of a module that is taken out', () => {
    const text =
      '{ name: tight, show: { lasts: 1 h }, charge: { baskets: { a: 9, b: 10 } }, modules: { a: { basket: 12, cycle: 1 s, travel: 5 s }, b: { basket: 10, cycle: 1 s, travel: 5 s } } }';
    expect(problemsOf(() => applyChanges({ text }, typed('--without', 'b')))[0]).toMatch(
      /^--without b: charge\.baskets: 10 balls stand in the basket of b at the start, and there is room for 3 of them in the others\./,
    );
  });
});
