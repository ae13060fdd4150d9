import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, describe, expect, it } from 'vitest';
import { killedAtRandom } from './killedAtRandom.js';
import { lapwright } from './runLapwright.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-inline-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => join(folder, name);

const TABLE = `name: Small table
show: { opens: 10:00, lasts: 1 h }
charge: 60
crew: { minders: 1, notice: 10 s, walk: 10 s, sweep: { every: 5 min, into: mill } }
modules:
  mill: { basket: 40, cycle: 0.8 s, travel: 4 s }
  stair: { basket: 40, cycle: 0.9 s, travel: 4 s }
  wheel: { basket: 40, batch: 4, cycle: 3.2 s, travel: 5 s }
  diva:
    basket: 25
    cycle: 0.85 s
    travel: 4 s
    stops:
      sulk: { per_ball: 0.002, crew: { clear: { exponential: { mean: 40 s } } } }
  snail: { basket: 25, cycle: 3 s, travel: 4 s }
spares:
  stopgap: { basket: 25, cycle: 0.8 s, travel: 4 s }
  chute-two: { basket: 25, cycle: 0.7 s, travel: 4 s }
order: [mill, stair, wheel]
`;
const RULES = 'house_rules: { spills_per_hour: 60, least_throughput: 0.7 bps }\n';
writeFileSync(at('table.yaml'), TABLE + RULES);
writeFileSync(at('no-rules.yaml'), TABLE);
const FILE = at('table.yaml');
const BASE = ['inline', FILE, 'diva', '-n', '10', '--search', '12'];

interface Details {
  readonly place: string;
  readonly with_it: {
    readonly verdict: string;
    readonly decides: string;
    readonly rules: { readonly limit: number }[];
  };
  readonly with_stand_in: { readonly label: string };
  readonly search: { readonly places: { readonly label: string }[] } | null;
  readonly stops: { readonly found: string } | null;
}
function detailsOf(stdout: string): Details {
  return (JSON.parse(stdout) as { details: Details }).details;
}

describe('lapwright inline', () => {
  it('says whether, where and with how many stops, in words', async () => {
    const { code, stdout, stderr } = await lapwright(...BASE);
    expect([code, stderr]).toEqual([0, '']);
    const flat = stdout.replaceAll(/\s+/g, ' ');
    expect(flat).toMatch(/^(Inline|Side table|Undecided): with diva (after|before) \w+, /);
    expect(flat).toMatch(/stops per hour/);
    expect(flat).toMatch(/Best place of 3/);
    expect(stdout).toContain('The rules of the house');
    expect(stdout).toContain('without diva');
    expect(stdout).toContain('stopgap in its place');
    expect(stdout).toMatch(/place +mean +difference from the best, 95 % +shows/);
    expect(stdout).toMatch(/the best/);
  });

  it('proposes commands that can be typed', async () => {
    const asked = ['inline', FILE, 'snail', '--after', 'mill', '--rule', 'spills_per_hour=20', '-n', '4'];
    const { next } = JSON.parse((await lapwright(...asked, '--json')).stdout) as { next: string[] };
    const typed = next.flatMap((line) => /npx lapwright (.*)$/.exec(line)?.[1] ?? []);
    expect(typed.length).toBeGreaterThan(1);
    for (const line of typed) {
      const words = line.split(' ').map((word) => word.replaceAll("'", ''));
      const { code, stderr } = await lapwright(
        ...words,
        '-n',
        '2',
        ...(words[0] === 'inline' ? ['--search', '6'] : []),
      );
      expect([line, code, stderr]).toEqual([line, 0, '']);
    }
  });

  it('keeps out what is plainly too slow, and lets in what never stops and keeps up', async () => {
    // A ball in 3 s is a third of a ball a second, and the house asks for 0.7.
    const slow = await lapwright('inline', FILE, 'snail', '--after', 'mill', '-n', '4', '--json');
    expect(detailsOf(slow.stdout)).toMatchObject({
      place: 'after mill',
      with_it: { verdict: 'side table' },
      stops: null,
      search: null,
    });
    const calm = await lapwright(
      ...BASE,
      '--set',
      'modules.diva.stops.sulk.per_ball=0',
      '--before',
      'wheel',
      // In so many shows without a spill, shows with one are rare for sure.
      '-n',
      '36',
      '--json',
    );
    expect(detailsOf(calm.stdout)).toMatchObject({
      place: 'before wheel',
      with_it: { verdict: 'inline' },
      stops: null,
    });
    const there = await lapwright('inline', FILE, 'stair', '-n', '36', '--json');
    expect(detailsOf(there.stdout)).toMatchObject({ place: 'where it is', with_it: { verdict: 'inline' } });
  });

  it('looks where it may: anywhere, behind some, or where it is told to', async () => {
    const labels = async (...args: string[]): Promise<string[] | undefined> =>
      detailsOf(
        (await lapwright('inline', FILE, ...args, '-n', '2', '--search', '6', '--json')).stdout,
      ).search?.places.map(({ label }) => label);
    expect(await labels('snail')).toEqual(['after mill', 'after stair', 'after wheel']);
    expect(await labels('stair', '--anywhere')).toEqual(['where it is', 'after wheel']);
    expect(await labels('snail', '--places', 'wheel,mill')).toEqual(['after wheel', 'after mill']);
    expect(await labels('snail', '--places', 'wheel')).toBe(undefined);
  });

  it('takes rules from the command line instead of those of the file, and the spare that is named', async () => {
    const { stdout } = await lapwright(
      ...BASE,
      '--after',
      'mill',
      '--rule',
      'spills_per_hour=0',
      '--rule',
      'longest_lap = 5 min',
      '--spare',
      'chute-two',
      '--json',
    );
    const details = detailsOf(stdout);
    expect(details.with_it.rules).toMatchObject([
      { name: 'spills_per_hour', limit: 0 },
      { name: 'least_throughput', limit: 0.7 },
      { name: 'longest_lap', limit: 300 },
    ]);
    expect(details.with_stand_in.label).toBe('chute-two in its place');
    expect(JSON.parse(stdout)).toMatchObject({
      scenarios: [{ changes: ['--rule spills_per_hour=0', '--rule longest_lap=5 min'] }],
    });
    const alone = await lapwright(
      'inline',
      at('no-rules.yaml'),
      'diva',
      '--after',
      'mill',
      '-n',
      '2',
      '--rule',
      'overflow_risk=50 %',
    );
    expect(alone.stdout).toMatch(/public hours see a spill/);
  });

  it('gives JSON of the published form, and a report with its pictures', async () => {
    const { code, stderr } = await lapwright(
      ...BASE,
      '--json',
      at('answer.json'),
      '--report',
      at('answer.html'),
    );
    expect([code, stderr]).toEqual([0, expect.stringContaining('Written')]);
    const schema = JSON.parse(readFileSync('packages/sim-core/schema/answer.schema.json', 'utf8')) as object;
    const validate = new Ajv2020({ strict: true, allowUnionTypes: true, allErrors: true }).compile(schema);
    const written = JSON.parse(readFileSync(at('answer.json'), 'utf8')) as object;
    const answers = [written];
    for (const module of ['snail', 'wheel']) {
      const { stdout } = await lapwright('inline', FILE, module, '-n', '2', '--search', '6', '--json');
      answers.push(JSON.parse(stdout) as object);
    }
    for (const answer of answers) expect(validate(answer), JSON.stringify(validate.errors)).toBe(true);
    expect(validate({ ...written, details: {} })).toBe(false);
    const html = readFileSync(at('answer.html'), 'utf8');
    for (const title of [
      'What each rule of the house says',
      'How many stops the house would stand',
      'Where it does best',
    ])
      expect(html).toContain(title);
    expect(html.match(/<svg/g)).toHaveLength(3);
  });

  it('gives the same bytes with 1 and 2 workers, and broken off and gone on', async () => {
    const whole = (await lapwright(...BASE, '--json', '--workers', '1')).stdout;
    expect((await lapwright(...BASE, '--json', '--workers', '2')).stdout).toBe(whole);
    const journal = at('killed.journal');
    expect(await killedAtRandom([...BASE, '--json'], journal, { times: 3, most: 3000 })).toBeGreaterThan(1);
    const resumed = await lapwright(...BASE, '--json', '--journal', journal, '--resume');
    expect([resumed.code, resumed.stdout]).toEqual([0, whole]);
  });

  it.each<[string, string[], RegExp]>([
    [
      'no rules anywhere',
      ['inline', at('no-rules.yaml'), 'diva'],
      /the house has no rules.*house_rules: \{ spills_per_hour: 80 \}.*--rule spills_per_hour=80/s,
    ],
    ['an unknown module', ['inline', FILE, 'dvia'], /no module "dvia".*Did you mean diva\?/s],
    ['a spare', ['inline', FILE, 'stopgap'], /stopgap is a spare/],
    ['a module behind itself', ['inline', FILE, 'stair', '--after', 'stair'], /stair cannot go after itself/],
    ['an unknown place', ['inline', FILE, 'diva', '--after', 'mil'], /no module "mil".*Did you mean mill\?/s],
    [
      'a place on the side table',
      ['inline', FILE, 'diva', '--before', 'snail'],
      /snail is on the side table/,
    ],
    [
      'an unknown place among some',
      ['inline', FILE, 'diva', '--places', 'mill,whel'],
      /Did you mean wheel\?/,
    ],
    ['an empty name', ['inline', FILE, 'diva', '--places', 'mill,'], /names with commas/],
    [
      'several unknown places, by the option that was typed',
      ['inline', FILE, 'diva', '--places', 'mil,whel'],
      /^(?=[\s\S]*--places mil,whel: there is no module "mil")(?=[\s\S]*--places mil,whel: there is no module "whel")(?![\s\S]*--with)/,
    ],
    [
      'a place of the side table, by the option that was typed',
      ['inline', FILE, 'stair', '--after', 'snail'],
      /^(?![\s\S]*--(with|move))[\s\S]*--after snail: snail is on the side table.*Name a module that stands in the loop/,
    ],
    ['the counter, without an option that was not typed', ['inline', FILE, 'mill'], /^mill: .*crew\.sweep/m],
    ['two places', ['inline', FILE, 'diva', '--after', 'mill', '--anywhere'], /cannot be used with/],
    [
      'an unknown spare',
      ['inline', FILE, 'diva', '--spare', 'stopgab'],
      /no spare "stopgab".*Did you mean stopgap\?/s,
    ],
    [
      'an unknown rule',
      ['inline', FILE, 'diva', '--rule', 'spils_per_hour=8'],
      /--rule spils_per_hour=8: .*Did you mean spills_per_hour\?/s,
    ],
    ['a rule without a limit', ['inline', FILE, 'diva', '--rule', 'longest_lap='], /a rule and its limit/],
    [
      'a limit without its unit',
      ['inline', FILE, 'diva', '--rule', 'longest_lap=5'],
      /--rule longest_lap=5: .*Write the unit/s,
    ],
    [
      'the counter',
      ['inline', FILE, 'mill'],
      /mill cannot be taken out like this.*--set crew\.sweep\.into=stair/s,
    ],
    [
      'a show without a full hour',
      ['inline', FILE, 'diva', '--set', 'show.lasts=30 min', '--rule', 'overflow_risk=10 %'],
      /overflow_risk.*full public hours/s,
    ],
    ['several at once', ['inline', at('no-rules.yaml'), 'dvia', '--spare', 'x'], /3 problems found/],
  ])('refuses %s with code 2', async (_, args, message) => {
    const { code, stdout, stderr } = await lapwright(...args);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(message);
    expect(stderr).not.toMatch(/\n\s+at .*:\d+:\d+/);
  });
});

describe('rules of the house', () => {
  it('change no figure of a run', async () => {
    const figures = async (file: string): Promise<unknown> => {
      const { stdout } = await lapwright('run', file, '-n', '3', '--json');
      const { scenario: _scenario, ...rest } = JSON.parse(stdout) as Record<string, unknown>;
      return rest;
    };
    const plain = await figures(at('no-rules.yaml'));
    expect(plain).toMatchObject({ replications: expect.anything() as unknown });
    expect(await figures(FILE)).toEqual(plain);
  });

  it('are told by keys', async () => {
    const { stdout } = await lapwright('keys');
    for (const rule of ['spills_per_hour', 'overflow_risk', 'least_throughput', 'longest_lap'])
      expect(stdout).toContain(`house_rules.${rule}`);
  });
});
