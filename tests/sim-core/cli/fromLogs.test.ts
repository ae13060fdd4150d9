import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, describe, expect, it } from 'vitest';
import { answerSchema, parseScenario, readLog, withFigures } from '@lapwright/sim-core';
import { lapwright } from './runLapwright.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-logs-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => join(folder, name);
const isAnswer = new Ajv2020({ strict: false }).compile(answerSchema());
const flat = (text: string): string => text.replaceAll(/\s+/g, ' ');

const BENCH = 'scenarios/lantern-stairs-bench.csv';
const HALL = 'scenarios/village-hall.yaml';
const SATURDAY = 'scenarios/village-hall-saturday.csv';

describe('fit', () => {
  it('puts what a log says into a copy of the scenario, with what it was counted from', async () => {
    const args = ['fit', BENCH, '--loop', HALL, '--into', at('hall.yaml'), '--report', at('fit.html')];
    const { code, stdout, stderr } = await lapwright(...args, '--json', at('fit.json'));
    expect([code, flat(stderr)]).toEqual([0, expect.stringContaining('All 2595 rows count.')]);
    expect(readFileSync(HALL, 'utf8')).not.toContain('lantern-stairs');
    const { spec, sideTable, counted } = parseScenario(readFileSync(at('hall.yaml'), 'utf8'));
    expect(spec.modules.map(({ id }) => id)).not.toContain('lantern-stairs');
    const made = sideTable.find(({ id }) => id === 'lantern-stairs');
    // The log was kept by a simulation of scenarios/bench-one.yaml: batch 3, catch 0.97, a cycle of 2.7 s with a spread of 8 %.
    expect(made).toMatchObject({ batch: 3, builder: 'Perrin' });
    expect(made?.catch).toBeCloseTo(0.97, 2);
    expect(made?.cycle).toMatchObject({ mean: expect.closeTo(2.7, 1) as number });
    const { records } = readLog([{ file: BENCH, content: readFileSync(BENCH) }]);
    const stops = counted?.find(({ module }) => module === 'lantern-stairs')?.stops ?? [];
    expect(stops.reduce((sum, cause) => sum + cause.stops, 0)).toBe(records[0]?.stops.length);
    expect(flat(stdout)).toContain(`npx lapwright inline ${at('hall.yaml')} lantern-stairs`);
    const answer: unknown = JSON.parse(readFileSync(at('fit.json'), 'utf8'));
    expect(isAnswer(answer), JSON.stringify(isAnswer.errors)).toBe(true);
    expect(readFileSync(at('fit.html'), 'utf8')).toContain('<svg');
  });

  it('takes a cause that the file has and nobody saw for half a stop, and keeps how it is cleared', () => {
    const text = `name: bench
show: { lasts: 1 h }
feed: { steady: 1 bps }
crew: { minders: 1 }
modules:
  lift: # mine
    basket: 150
    cycle: 0.9 s
    travel: 5 s
    stops: { jam: { per_ball: 0.1, crew: { notice: 7 s, walk: 3 s, clear: 20 s } } } # by feel
`;
    const made = withFigures(text, 'x.yaml', [
      { module: 'lift', figures: { stops: { jam: { running: { exponential: { mean: '2 h' } } } } } },
    ]);
    const [lift] = parseScenario(made).spec.modules;
    expect(lift?.stops[0]).toMatchObject({
      trigger: { kind: 'running', time: { family: 'exponential', mean: 7200 } },
      remedy: { clear: { family: 'constant', value: 20 }, notice: { value: 7 } },
    });
    expect(made).toContain('# mine');
    expect(made).toContain('# by feel');
  });

  it('leaves the figure of a cause that nobody saw while the log says nothing against it, and says so', async () => {
    // 40 min without a jam: by exp(-40 / 30) = 0.26 no sign against one in 30 min; by exp(-40 / 5) = 0.0003 against one in 5.
    writeFileSync(
      at('quiet.csv'),
      '# log: bench\n# module: lift\ntime,what,cause\n10:00,start,\n10:40,end,\n',
    );
    writeFileSync(
      at('lift.yaml'),
      `name: bench
show: { lasts: 1 h }
feed: { steady: 1 bps }
crew: { minders: 1, notice: 5 s, walk: 5 s }
modules:
  lift:
    basket: 150
    cycle: 0.9 s
    travel: 5 s
    stops:
      jam:
        running: { exponential: { mean: 30 min } } # by feel
        crew: { clear: 20 s }
      slip: { running: { exponential: { mean: 5 min } }, crew: { clear: 20 s } }
    counted: { stops: { jam: { stops: 4, in: 2 h, clears: 0 }, slip: { stops: 9, in: 45 min, clears: 0 } } }
`,
    );
    const args = ['fit', at('quiet.csv'), '--loop', at('lift.yaml'), '--into', at('kept.yaml')];
    const { code, stdout } = await lapwright(...args);
    expect(code).toBe(0);
    expect(flat(stdout)).toContain(
      'jam: none was seen in 40 min of running. By the figure of the scenario (2 per running hour) 26 % of such logs would show none: the log is too short to say anything against that figure, which stays.',
    );
    expect(flat(stdout)).toContain(
      'slip: none was seen in 40 min of running. By the figure of the scenario (12',
    );
    const text = readFileSync(at('kept.yaml'), 'utf8');
    expect(text).toContain('# by feel; jam: none seen in 40 min of running: too short to say anything');
    const { spec, counted } = parseScenario(text);
    expect(spec.modules[0]?.stops.map(({ trigger }) => trigger)).toEqual([
      { kind: 'running', time: { family: 'exponential', mean: 1800 } },
      // Half a stop in 40 min.
      { kind: 'running', time: { family: 'exponential', mean: 4800 } },
    ]);
    // What stood behind the figure that stays stands behind it still.
    expect(counted?.[0]?.stops.map(({ cause, stops, over }) => [cause, stops, over]).toSorted()).toEqual([
      ['jam', 4, 7200],
      ['slip', 0, 2400],
    ]);
  });

  it('says with their lines which names became one', async () => {
    writeFileSync(
      at('names.csv'),
      '# log: bench\n# module: old-mill\ntime,what,cause\n0,start,\n60,stop,ball stuck\n90,cleared,\n200,stop,ball-stuck\n230,cleared,\n900,end,\n',
    );
    const args = ['fit', at('names.csv'), '--loop', HALL, '--into', at('names.yaml')];
    const { code, stderr } = await lapwright(...args);
    expect([code, flat(stderr)]).toEqual([
      0,
      expect.stringContaining(
        `the causes "ball stuck" (${at('names.csv')}:5) and "ball-stuck" (${at('names.csv')}:7) are one in the scenario, ball-stuck`,
      ),
    ]);
  });

  it('says what cannot be done, and writes over nothing', async () => {
    writeFileSync(at('there.yaml'), 'mine\n');
    for (const [args, said] of [
      [[BENCH, '--into', at('new.yaml')], '--into needs the scenario'],
      [[BENCH, '--loop', HALL, '--into', at('there.yaml')], 'there is a file already'],
      [[BENCH, '--loop', HALL, '--into', HALL], 'this would overwrite'],
      [[BENCH, '--loop', HALL, '--into', BENCH], 'this would overwrite'],
      [[BENCH, '--module', 'lantern-stair'], 'Did you mean lantern-stairs?'],
      [[at('missing.csv')], 'there is no such file'],
      [[BENCH, '--clock', 'weekly'], 'running, per_cycle, per_ball'],
    ] as const) {
      const { code, stderr } = await lapwright('fit', ...args);
      expect([code, flat(stderr)]).toEqual([2, expect.stringContaining(said)]);
    }
    expect(readFileSync(at('there.yaml'), 'utf8')).toBe('mine\n');
    expect(existsSync(at('new.yaml'))).toBe(false);
  });
});

describe('match', () => {
  it('tells which module was not that day what the file says', async () => {
    const args = ['match', HALL, SATURDAY, '-n', '59', '--workers', '2', '--report', at('match.html')];
    const { code, stdout } = await lapwright(...args, '--json', at('match.json'));
    expect(code).toBe(0);
    // The log was kept by a simulation in which old-mill stopped five times as often.
    expect(flat(stdout)).toContain('does not match');
    expect(flat(stdout)).toContain('old-mill stopped 30 times');
    const answer: unknown = JSON.parse(readFileSync(at('match.json'), 'utf8'));
    expect(isAnswer(answer), JSON.stringify(isAnswer.errors)).toBe(true);
    const again = await lapwright('match', HALL, SATURDAY, '-n', '59', '--workers', '1');
    expect(again.stdout).toBe(stdout.replace(/Written: .*\n/g, ''));
  });

  it('tells a module that was taken out by hand', async () => {
    const lines = readFileSync(SATURDAY, 'utf8').split('\n');
    const away = lines.filter((line) => !(/^1[12]:/.test(line) && line.includes(',ferris-jug,')));
    const before = (time: string): number => away.findIndex((line) => /^\d/.test(line) && line >= time);
    away.splice(before('13:00:00'), 0, '13:00:00,ferris-jug,back,,,');
    away.splice(before('11:00:00'), 0, '11:00:00,ferris-jug,pulled,,,');
    writeFileSync(at('by-hand.csv'), away.join('\n'));
    const { code, stdout } = await lapwright('match', HALL, at('by-hand.csv'), '-n', '39', '--workers', '1');
    expect(code).toBe(0);
    expect(flat(stdout)).toContain('Out of the loop, by the log: ferris-jug from 11:00 to 13:00.');
    expect(stdout).toContain('ferris-jug (out for 2 h)');
    expect(stdout).toMatch(/11:00 to 11:30 \(ferris-jug out\)/);
    // Pulled by the rule of the file, it is not taken out by hand.
    expect(stdout).not.toContain('crooked-stair (out');
  });

  it('needs shows enough for a band, and a log of a show', async () => {
    const few = await lapwright('match', HALL, SATURDAY, '-n', '38');
    expect([few.code, flat(few.stderr)]).toEqual([2, expect.stringContaining('39')]);
    const bench = await lapwright('match', HALL, BENCH);
    expect([bench.code, flat(bench.stdout)]).toEqual([
      0,
      expect.stringContaining('nothing that could be held'),
    ]);
  });
});

describe('debrief', () => {
  it('writes a page for the club and one for each builder', async () => {
    const lift =
      'basket: 40, cycle: 0.9 s, travel: 5 s, stops: { jam: { running: { exponential: { mean: 5 min } }, itself: 1 min } }';
    writeFileSync(
      at('two.yaml'),
      `name: Two\nshow: { opens: 10:00, lasts: 20 min }\ncharge: 30\nmodules:\n  mill: { builder: Perrin, ${lift} }\n  wheel: { builder: Quillon, ${lift} }\n`,
    );
    writeFileSync(
      at('two.csv'),
      'time,module,what,cause\n10:00,,start,\n10:05,mill,stop,jam\n10:06,mill,cleared,\n10:20,,end,\n',
    );
    const args = ['debrief', at('two.csv'), '--loop', at('two.yaml'), '-n', '4', '--workers', '1'];
    const all = await lapwright(...args, '--report', at('all.html'), '--json', at('all.json'));
    expect([all.code, flat(all.stdout)]).toEqual([0, expect.stringContaining('1 stop of 1 of 2 modules')]);
    const page = readFileSync(at('all.html'), 'utf8');
    for (const name of ['Perrin', 'Quillon']) expect(page).toContain(`For ${name}`);
    // Where it all comes from stands last, behind the pages of the builders.
    expect(page.indexOf('Where this comes from')).toBeGreaterThan(page.indexOf('For Quillon'));
    // wheel ran 20 min without a stop: up to -ln(0.05) / (1/3 h) = 9 an hour.
    expect(page.replaceAll('&nbsp;', ' ')).toContain(
      'No stop in 20 min of running. That is good, and no proof: it may stop up to 9.0 times an hour',
    );
    const answer: unknown = JSON.parse(readFileSync(at('all.json'), 'utf8'));
    expect(isAnswer(answer), JSON.stringify(isAnswer.errors)).toBe(true);
    await lapwright(...args, '--builder', 'Quillon', '--report', at('one.html'));
    const one = readFileSync(at('one.html'), 'utf8');
    expect(one).toContain('For Quillon');
    expect(one).not.toContain('Perrin');
    expect(all.stdout).toMatch(/module +builder +running/);
    const nobody = await lapwright('debrief', at('two.csv'));
    expect(nobody.stdout).toMatch(/module +running/);
    const wrong = await lapwright(...args, '--builder', 'Quilon');
    expect([wrong.code, flat(wrong.stderr)]).toEqual([2, expect.stringContaining('Did you mean Quillon?')]);
  });
});
