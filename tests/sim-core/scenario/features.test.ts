import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  clockLabel,
  InputError,
  type LoopSpec,
  parseScenario,
  type ShowSpec,
} from '../../../packages/sim-core/src/index.js';
import { seconds } from '../../build.js';
import { FEATURES } from './brokenFeatures.js';

function messageOf(text: string): string {
  try {
    parseScenario(text, 'x.yaml');
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
  return 'no problem';
}

/** The spec of the sound scenario with texts replaced. */
function specWith(...changes: readonly (readonly [string, string])[]): LoopSpec {
  let text = FEATURES;
  for (const [from, to] of changes) {
    expect(text, `"${from}" is to be replaced`).toContain(from);
    text = text.replace(from, to);
  }
  return parseScenario(text).spec;
}

const { spec } = parseScenario(FEATURES);
const moduleOf = (id: string, { modules }: LoopSpec = spec): LoopSpec['modules'][number] | undefined =>
  modules.find((module) => module.id === id);

describe('a show of several days', () => {
  // Day 1 from 10:00 to 13:00 (3 h) and from 13:30 to 17:00 (3 h 30 min), day 2 from 10:00 to 16:00 (6 h).
  it('is its sessions, in public time and by the clock', () => {
    expect(spec.show).toEqual({
      seconds: 45_000,
      warmUpSeconds: 600,
      opensAtSeconds: 36_000,
      sessions: [
        { fromSeconds: 0, clockSeconds: 0 },
        { fromSeconds: 10_800, clockSeconds: 12_600 },
        { fromSeconds: 23_400, clockSeconds: 86_400 },
      ],
    });
  });

  it('has its shifts every day, on one day, or in public time; closed time does not count', () => {
    // Every day 10:00 to 13:00, two: 0 to 3 h, and 6 h 30 to 9 h 30. Every day 13:00 to 17:00, three: 3 h to 6 h 30, and
    // on day 2, which closes at 16:00, 9 h 30 to 12 h 30. On day 2 12:00 to 14:00, one: 8 h 30 to 10 h 30. One more in
    // the first half hour.
    expect(spec.crew.duty).toEqual([
      { fromSeconds: 0, minders: 3 },
      { fromSeconds: 1800, minders: 2 },
      { fromSeconds: 10_800, minders: 3 },
      { fromSeconds: 23_400, minders: 2 },
      { fromSeconds: 30_600, minders: 3 },
      { fromSeconds: 34_200, minders: 4 },
      { fromSeconds: 37_800, minders: 3 },
      { fromSeconds: 45_000, minders: 0 },
    ]);
  });

  it('has its planned stops every day, on one day, or in public time', () => {
    // 11:30 every day: 1 h 30 and 8 h; day 2 15:00: 11 h 30; 90 min.
    expect(moduleOf('lift')?.stops[1]?.trigger).toEqual({ kind: 'at', times: [5400, 28_800, 41_400, 5400] });
  });

  it('reads the end of a shift that begins on a certain day as on that day', () => {
    expect(specWith(['to: day 2 14:00', 'to: 14:00']).crew.duty).toEqual(spec.crew.duty);
  });

  it('reads a shift over a night, and one that begins before the opening', () => {
    const duty = specWith(
      ['from: day 2 12:00, to: day 2 14:00', 'from: day 1 16:00, to: day 2 11:00'],
      ['from: 10:00, to: 13:00', 'from: 8:00, to: 13:00'],
    ).crew.duty;
    // The one over night: from 5 h 30 to 7 h 30 of public time.
    expect(duty).toEqual([
      { fromSeconds: 0, minders: 3 },
      { fromSeconds: 1800, minders: 2 },
      { fromSeconds: 10_800, minders: 3 },
      { fromSeconds: 19_800, minders: 4 },
      { fromSeconds: 23_400, minders: 3 },
      { fromSeconds: 27_000, minders: 2 },
      { fromSeconds: 34_200, minders: 3 },
      { fromSeconds: 45_000, minders: 0 },
    ]);
  });

  const oneDay = (days: string, stop: string): LoopSpec =>
    parseScenario(
      `name: n\nshow: { days: [${days}] }\ncharge: 5\nmodules:\n  a: { basket: 9, cycle: 1 s, travel: 1 s, stops: { x: { at: [${stop}], itself: 9 s } } }`,
    ).spec;
  const timesOf = (one: LoopSpec): unknown => one.modules[0]?.stops[0]?.trigger;

  it('with one day is that day: times of day and times after the opening go together', () => {
    const open: ShowSpec = { seconds: 21_600, warmUpSeconds: 0, opensAtSeconds: 34_200 };
    const whole = oneDay('{ opens: 9:30, closes: 15:30 }', '10:00, 2 h');
    expect(whole.show).toEqual(open);
    expect(timesOf(whole)).toEqual({ kind: 'at', times: [1800, 7200] });
    const broken = oneDay(
      '{ opens: 9:30, closes: 16:30, breaks: [{ from: 12:00, to: 13:00 }] }',
      '13:00, 2 h',
    );
    expect(broken.show).toEqual({
      ...open,
      sessions: [
        { fromSeconds: 0, clockSeconds: 0 },
        { fromSeconds: 9000, clockSeconds: 12_600 },
      ],
    });
    expect(timesOf(broken)).toEqual({ kind: 'at', times: [9000, 7200] });
  });

  it('is labelled by the clock: what was read is what is shown', () => {
    const label = (publicSeconds: number, end = false): string =>
      clockLabel(spec.show, publicSeconds, { end });
    expect([0, 10_800, 23_400, 28_800, 45_000].map((moment) => label(moment))).toEqual([
      'day 1 10:00',
      'day 1 13:30',
      'day 2 10:00',
      'day 2 11:30',
      'day 2 16:00',
    ]);
    expect([0, 10_800, 23_400, 45_000].map((moment) => label(moment, true))).toEqual([
      'day 1 10:00',
      'day 1 13:00',
      'day 1 17:00',
      'day 2 16:00',
    ]);
    // One day with a break needs no day in its labels.
    const { show } = oneDay('{ opens: 9:30, closes: 16:30, breaks: [{ from: 12:00, to: 13:00 }] }', '1 h');
    expect([clockLabel(show, 9000), clockLabel(show, 9000, { end: true })]).toEqual(['13:00', '12:00']);
  });
});

describe('what modules say of others', () => {
  it('becomes places in the loop and on the side table', () => {
    expect(moduleOf('lift')?.basket.whenFull).toEqual({ kind: 'return', to: 1, time: seconds(3) });
    expect(moduleOf('lift')?.lever).toEqual({ watches: [1, 2], takes: seconds(10), time: seconds(2) });
    expect(moduleOf('tangler')?.basket).toEqual({
      capacity: 90,
      order: 'fifo',
      whenFull: { kind: 'back_up', holds: 12 },
    });
    expect(moduleOf('tangler')?.pull).toEqual({
      stops: { moreThan: 3, withinSeconds: 3600 },
      outlastsSeconds: 300,
      spares: [0, 1],
      chute: seconds(5),
      swap: seconds(90),
      mend: seconds(7200),
    });
    expect(moduleOf('wheel-two')?.pull).toEqual({
      outlastsSeconds: 600,
      spares: [],
      chute: seconds(4),
      swap: seconds(60),
    });
    expect(moduleOf('lift')?.stops[0]?.trigger).toEqual({
      kind: 'clock',
      time: { family: 'exponential', mean: 3600 },
    });
    expect(moduleOf('bare')).toMatchObject({
      basket: { capacity: 0 },
      drive: { kind: 'demand', startAt: 1 },
    });
    // The lever of the fifth of six watches the next, and is set in no time.
    expect(moduleOf('bare')?.lever).toEqual({ watches: [5], takes: seconds(0), time: seconds(0) });
    expect(spec.crew.topUp).toEqual({ below: 50, upTo: 60, box: 20, into: 0, takes: seconds(60) });
  });

  it('follows the order of the loop, and its ends are neighbours', () => {
    const turned = specWith(
      ['order: [lift, wheel-one, tangler, wheel-two, bare, wheel-three]', 'order: [lift, wheel-one, bare]'],
      ['return: { to: wheel-one, time: 3 s }', 'return: { time: 3 s }'],
      ['watches: [wheel-one, tangler]', 'watches: [bare]'],
    );
    expect(moduleOf('lift', turned)?.basket.whenFull).toEqual({ kind: 'return', to: 2, time: seconds(3) });
    expect(moduleOf('bare', turned)?.lever?.watches).toEqual([0]);
    expect(turned.modules.some(({ pull }) => pull)).toBe(false);
  });

  it('has spares of their own description, without what belongs to a place', () => {
    expect(
      spec.spares?.map(({ id, batch, basket, pull, lever }) => ({ id, batch, basket, pull, lever })),
    ).toEqual([
      { id: 'plain-lift', batch: 1, basket: { capacity: 120, order: 'fifo', whenFull: { kind: 'spill' } } },
      { id: 'old-wheel', batch: 3, basket: { capacity: 90, order: 'fifo', whenFull: { kind: 'spill' } } },
    ]);
    expect(parseScenario(FEATURES).sideTable.map(({ id }) => id)).toEqual(['shelf']);
  });

  it('leaves planned stops of a template to the modules of the loop', () => {
    const { modules, spares } = specWith([
      '    travel: 8 s\n',
      '    travel: 8 s\n    stops: { rest: { at: [1 h], itself: 5 min } }\n',
    ]);
    expect(moduleOf('wheel-one', { ...spec, modules })?.stops).toHaveLength(1);
    expect(spares?.map(({ stops }) => stops)).toEqual([[], []]);
  });

  const template = `name: n
show: { lasts: 1 h }
charge: 5
crew: { minders: 1 }
templates:
  t: &t
    basket: { balls: 20, when_full: { back_up: { holds: 3 } } }
    cycle: 1 s
    travel: 1 s
    pull: { outlasts: 5 min, spares: [s], swap: 1 min }
    lever: { takes: 5 s }
modules:
  a: { like: t }
  b: { like: t, pull: { stops: { more_than: 0, within: 1 h }, chute: 2 s, swap: 1 min } }
  c: *t
spares:
  s: { like: t }
`;

  it('may stand in a template or behind an alias; a rule of its own replaces the whole rule', () => {
    const [a, b, c] = parseScenario(template).spec.modules;
    expect(a?.pull).toEqual({ outlastsSeconds: 300, spares: [0], swap: seconds(60) });
    expect(b?.pull).toEqual({
      stops: { moreThan: 0, withinSeconds: 3600 },
      spares: [],
      chute: seconds(2),
      swap: seconds(60),
    });
    expect(c?.pull).toEqual(a?.pull);
    expect([a, b, c].map((module) => module?.lever?.watches)).toEqual([[1], [2], [0]]);
    expect([a, b, c].map((module) => module?.basket.whenFull)).toEqual(
      [0, 1, 2].map(() => ({ kind: 'back_up', holds: 3 })),
    );
  });

  it('is told once when many modules take it from one template', () => {
    expect(messageOf(template.replace('spares: [s]', 'spares: [x]')).split('\n')).toEqual([
      expect.stringMatching(/^x\.yaml:10:39: templates\.t\.pull\.spares\[0\]: there is no spare "x" here/),
      expect.stringMatching(/^x\.yaml:10:39: modules\.c\.pull\.spares\[0\]: there is no spare "x" here/),
    ]);
  });

  it('needs somebody in the crew', () => {
    const alone = template.replace('crew: { minders: 1 }\n', '');
    expect(messageOf(alone)).toMatch(/module a needs a minder to be pulled, but there is no crew section/);
    const noPull = alone
      .replace(/ {4}pull:.*\n/, '')
      .replace(', pull: { stops: { more_than: 0, within: 1 h }, chute: 2 s, swap: 1 min }', '');
    expect(messageOf(noPull)).toMatch(/module a needs a minder to set its lever/);
    expect(messageOf(noPull.replace('takes: 5 s', 'takes: 0 s'))).toBe('no problem');
  });
});

describe('the ends of a chain', () => {
  const chain = (first: string, last: string): string =>
    `name: n\nshow: { lasts: 1 h }\nfeed: { steady: 1 bps }\ncrew: { minders: 1 }\nmodules:\n  a: { ${first}, cycle: 1 s, travel: 1 s }\n  b: { basket: 9, ${last} cycle: 1 s, travel: 1 s }`;

  it('have no neighbour that could be meant without a name', () => {
    expect(messageOf(chain('basket: { balls: 9, when_full: { return: { time: 1 s } } }', ''))).toMatch(
      /x\.yaml:6:.*modules\.a\.basket\.when_full\.return: nothing stands before the first module of a chain/,
    );
    expect(messageOf(chain('basket: 9', 'lever: { takes: 5 s },'))).toMatch(
      /x\.yaml:7:.*modules\.b\.lever: nothing stands behind the last module of a chain/,
    );
  });

  it('may name modules, and the first may back up, though its feed cannot be held', () => {
    const { modules } = parseScenario(
      chain(
        'basket: { balls: 9, when_full: { return: { to: b, time: 1 s } } }',
        'lever: { watches: [a], takes: 5 s },',
      ),
    ).spec;
    expect(modules[0]?.basket.whenFull).toEqual({ kind: 'return', to: 1, time: seconds(1) });
    expect(modules[1]?.lever?.watches).toEqual([0]);
    expect(messageOf(chain('basket: { balls: 9, when_full: { back_up: { holds: 0 } } }', ''))).toBe(
      'no problem',
    );
  });

  it('of a loop of one module are that module itself', () => {
    const alone = (what: string): string =>
      `name: n\nshow: { lasts: 1 h }\ncharge: 5\ncrew: { minders: 1 }\nmodules:\n  a: { ${what}, cycle: 1 s, travel: 1 s }`;
    expect(messageOf(alone('basket: { balls: 9, when_full: { return: { time: 1 s } } }'))).toMatch(
      /would run back into this same basket/,
    );
    expect(messageOf(alone('basket: 9, lever: { takes: 5 s }'))).toMatch(/cannot watch its own module/);
  });
});

describe('a basket that backs up', () => {
  const backing = (holds: number, more = ''): string =>
    messageOf(`name: n
show: { lasts: 1 h }
charge: 5
crew: { minders: 1 }
modules:
  a: { basket: 9, batch: 3, cycle: 1 s, travel: 0 s${more} }
  b: { basket: { balls: 9, when_full: { back_up: { holds: ${holds} } } }, cycle: 1 s, travel: 1 s }`);

  it('without a travel time before it needs no run-out, unless a chute stands in', () => {
    expect(backing(0)).toBe('no problem');
    expect(backing(0, ', pull: { outlasts: 1 min, chute: 2 s, swap: 1 min }')).toMatch(
      /the plain chute in place of a could never let go. Write holds: 1 or more/,
    );
    expect(backing(1, ', pull: { outlasts: 1 min, chute: 2 s, swap: 1 min }')).toBe('no problem');
  });
});

describe('problems of the new kinds', () => {
  it('are all told at once, in the order of the file', () => {
    const text = FEATURES.replace('closes: 17:00', 'closes: 9:00')
      .replace('up_to: 60', 'up_to: 40')
      .replace('holds: 4', 'holds: 0')
      .replace('[wheel-one, tangler]', '[wheel-one, tanglr]')
      .replace('swap: 90 s', 'swap: 90');
    const lines = messageOf(text).split('\n');
    expect(lines.map((line) => line.replace(/:\d+: .*/, ''))).toEqual(
      [4, 17, 29, 42, 45].map((line) => `x.yaml:${line}`),
    );
  });
});

describe('the README', () => {
  it('shows files that can be read', () => {
    const blocks = [...readFileSync('README.md', 'utf8').matchAll(/^```yaml\n([\s\S]*?)^```/gm)];
    const [firstLoop = '', weekend = '', table = ''] = blocks.map(([, text]) => text);
    expect(blocks).toHaveLength(3);
    // The last is a part of a file, about modules of the demo.
    const demo = readFileSync('scenarios/demo.yaml', 'utf8');
    for (const text of [firstLoop, weekend, `${demo}\n${table}`]) expect(messageOf(text)).toBe('no problem');
  });
});

describe('what must hold of the order', () => {
  it('is read by name, also of modules on the side table, and is no part of the loop', () => {
    const { rules } = parseScenario(FEATURES);
    expect(rules).toEqual({
      fixed: ['lift', 'shelf'],
      builders: false,
      groups: [
        ['tangler', 'wheel-two'],
        ['bare', 'wheel-three'],
      ],
      apart: [['bare', 'lift']],
      neverRightAfter: [['tangler', 'lift']],
      neverBehind: [
        ['wheel-one', 'bare'],
        ['wheel-one', 'wheel-three'],
      ],
    });
    const without = parseScenario(FEATURES.slice(0, FEATURES.indexOf('table:')));
    expect(without.rules).toBeUndefined();
    expect(without.spec).toEqual(spec);
    const builders = parseScenario(FEATURES.replace(/together: .*/, 'together: builders'));
    expect(builders.rules).toMatchObject({ builders: true, groups: [] });
  });
});
