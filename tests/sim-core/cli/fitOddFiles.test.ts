import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, describe, expect, it } from 'vitest';
import { answerSchema, parseScenario, withFigures } from '@lapwright/sim-core';
import { lapwright } from './runLapwright.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-odd-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => join(folder, name);
const put = (name: string, text: string): string => {
  writeFileSync(at(name), text);
  return at(name);
};
const isAnswer = new Ajv2020({ strict: false }).compile(answerSchema());

const HEAD = 'name: x\nshow: { lasts: 10 min }\nfeed: { steady: 1 bps }\n';
const CREW = 'crew: { minders: 1, notice: 10 s, walk: 10 s }\n';
const LIFT = 'basket: 150, cycle: 0.9 s, travel: 5 s';
const JAM = 'jam: { per_ball: 0.1, crew: { notice: 3 s, clear: 20 s } }';
const jams = (mean: string): Record<string, unknown> => ({
  stops: { jam: { running: { exponential: { mean } }, crew: { clear: '30 s' } } },
});
const bench = (...rows: readonly string[]): string =>
  ['# log: bench', '# module: lift', 'time,what,cause,count', '0,start,,', ...rows, ''].join('\n');
const TWO_STOPS = (cause: string): string =>
  bench(`10,stop,${cause},`, '20,cleared,,', `30,stop,${cause},`, '45,cleared,,', '60,end,,');

describe('figures put into a file', () => {
  it.each([
    ['a module', `modules:\n  two: &t { ${LIFT}, stops: { ${JAM} } }\n  lift: *t\n`],
    ['a module that others take', `modules:\n  lift: &t { ${LIFT}, stops: { ${JAM} } }\n  two: *t\n`],
    ['stops', `modules:\n  two: { ${LIFT}, stops: &s { ${JAM} } }\n  lift: { ${LIFT}, stops: *s }\n`],
    [
      'a clearing',
      `modules:\n  two: { ${LIFT}, stops: { jam: { per_ball: 0.1, crew: &c { notice: 3 s, clear: 20 s } } } }\n  lift: { ${LIFT}, stops: { jam: { per_ball: 0.1, crew: *c } } }\n`,
    ],
    [
      'all modules',
      `templates: &m\n  lift: { ${LIFT}, stops: { ${JAM} } }\n  two: { ${LIFT}, stops: { ${JAM} } }\nmodules: *m\n`,
    ],
    [
      'a value',
      `modules:\n  lift: { basket: 150, cycle: &c 0.9 s, travel: 5 s, stops: { ${JAM} } }\n  two: { basket: 150, cycle: *c, travel: 5 s, stops: { ${JAM} } }\n`,
    ],
    [
      'a template',
      `templates: { l: { ${LIFT}, stops: { ${JAM} } } }\nmodules: { lift: { like: l }, two: { like: l } }\n`,
    ],
  ])('change that module alone, where an alias or a template shares %s', (_, modules) => {
    const text = `${HEAD}${CREW}${modules}`;
    const made = parseScenario(
      withFigures(text, 'x.yaml', [{ module: 'lift', figures: { cycle: '2 s', ...jams('1 h') } }]),
    ).spec.modules;
    const before = parseScenario(text).spec.modules;
    expect(made.find(({ id }) => id === 'two')).toEqual(before.find(({ id }) => id === 'two'));
    const lift = made.find(({ id }) => id === 'lift');
    expect(lift?.cycle).toMatchObject({ value: 2 });
    expect(lift?.stops[0]).toMatchObject({
      trigger: { kind: 'running', time: { mean: 3600 } },
      remedy: { notice: { value: 3 }, clear: { value: 30 } },
    });
  });

  it('keep the other causes of a template', () => {
    const text = `${HEAD}${CREW}templates: { l: { ${LIFT}, stops: { ${JAM}, show: { at: [1 min], itself: 5 s } } } }\nmodules: { lift: { like: l } }\n`;
    const [lift] = parseScenario(withFigures(text, 'x.yaml', [{ module: 'lift', figures: jams('1 h') }])).spec
      .modules;
    expect(lift?.stops.map(({ id }) => id)).toEqual(['jam', 'show']);
  });

  it('leave a file in JSON one', () => {
    const text = JSON.stringify({
      name: 'x',
      show: { lasts: '10 min' },
      feed: { steady: '1 bps' },
      crew: { minders: 1, notice: '1 s', walk: '1 s' },
      modules: { two: { basket: 150, cycle: '0.9 s', travel: '5 s' } },
    });
    const made = withFigures(text, 'x.json', [{ module: 'lift', figures: jams('1 h') }]);
    expect(JSON.parse(made)).toMatchObject({
      modules: { lift: { ...jams('1 h'), cycle: '1 s' } },
      order: ['two'],
    });
  });
});

describe('fit', () => {
  it('puts stops into a file that knows no minder, and marks what is guessed', async () => {
    const file = put('nobody.yaml', `${HEAD}modules: { lift: { ${LIFT} } }\n`);
    const args = ['fit', put('jams.csv', TWO_STOPS('ball stuck')), '--loop', file, '--into', at('made.yaml')];
    const { code, stderr } = await lapwright(...args);
    expect([code, stderr]).toEqual([0, expect.stringContaining('"ball stuck" is called ball-stuck')]);
    const made = readFileSync(at('made.yaml'), 'utf8');
    expect(parseScenario(made).spec.modules[0]?.stops[0]).toMatchObject({
      id: 'ball-stuck',
      // Two stops in 60 - 10 - 15 s of running; (10 + 15) / 2 s to clear them.
      trigger: { time: { mean: 17.5 } },
      remedy: { kind: 'crew', clear: { mean: 12.5 } },
    });
    expect(made.match(/put in what you measure/g)).toHaveLength(3);
  });

  it.each([
    ['no stop', bench('60,end,,'), []],
    [
      'stops by the ball',
      bench('5,batch,,3', '7,batch,,3', '8,stop,jam,', '9,cleared,,', '60,end,,'),
      ['--clock', 'per_ball'],
    ],
    ['batches of nothing', bench('1,batch,,0', '2,batch,,0', '3,batch,,0', '60,end,,'), []],
  ])('tells, draws and writes %s', async (name, log, more) => {
    const file = put('hall.yaml', `${HEAD}${CREW}modules: { lift: { ${LIFT}, batch: 3, catch: 0.9 } }\n`);
    const key = name.replaceAll(' ', '-');
    const out = ['--into', at(`${key}.yaml`), '--json', at(`${key}.json`), '--report', at(`${key}.html`)];
    const { code, stdout } = await lapwright('fit', put(`${key}.csv`, log), '--loop', file, ...out, ...more);
    expect([code, stdout]).toEqual([0, expect.not.stringMatching(/NaN|undefined|Infinity/)]);
    expect(stdout).toMatch(/stops per (running hour|1000 balls)/);
    expect(parseScenario(readFileSync(at(`${key}.yaml`), 'utf8')).spec.modules[0]?.batch).toBe(3);
    const answer: unknown = JSON.parse(readFileSync(at(`${key}.json`), 'utf8'));
    expect(isAnswer(answer), JSON.stringify(isAnswer.errors)).toBe(true);
    expect(existsSync(at(`${key}.html`))).toBe(true);
  });

  it('says that nothing is written when there is nothing to fit', async () => {
    const file = put('plain.yaml', `${HEAD}modules: { lift: { ${LIFT} } }\n`);
    const log = put('one.csv', bench());
    const { code, stderr } = await lapwright('fit', log, '--loop', file, '--into', at('none.yaml'));
    expect([code, stderr]).toEqual([1, expect.stringContaining('is not written: no module could be fitted')]);
    expect(existsSync(at('none.yaml'))).toBe(false);
  });
});
