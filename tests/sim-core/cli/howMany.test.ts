import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, describe, expect, it } from 'vitest';
import type { Sweep } from '@lapwright/sim-core';
import { core } from '../../programs/builtCore.js';
import { killedAtRandom } from './killedAtRandom.js';
import { MORNINGS } from './mornings.js';
import { lapwright } from './runLapwright.js';
import { SHORT_LOOP } from './shortLoop.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-how-many-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => join(folder, name);

const kept = JSON.parse(readFileSync('packages/sim-core/schema/answer.schema.json', 'utf8')) as object;
const validate = new Ajv2020({
  strict: true,
  strictRequired: false,
  allowUnionTypes: true,
  allErrors: true,
}).compile(kept);

interface Printed {
  readonly because: readonly string[];
  readonly question: string;
  readonly verdict: string;
  readonly sentence: string;
  readonly shows: number;
  readonly next: readonly string[];
  readonly pictures: readonly { readonly chosen: { readonly value: number } | null }[];
  readonly details: Sweep;
}

async function asked(...args: readonly string[]): Promise<Printed> {
  const { code, stdout, stderr } = await lapwright(...args, '--json');
  expect([code, stderr]).toEqual([0, '']);
  return valid(stdout);
}

function valid(text: string): Printed {
  const answer = JSON.parse(text) as Printed;
  expect(validate(answer), JSON.stringify(validate.errors)).toBe(true);
  return answer;
}

const LOOP = at('mornings.yaml');
writeFileSync(LOOP, MORNINGS);
const DEMO = 'scenarios/demo.yaml';
// An hour less before, in and after the busy time is enough here.
const SHIFTS = at('shifts.yaml');
writeFileSync(
  SHIFTS,
  readFileSync('scenarios/shifts.yaml', 'utf8')
    .replace('lasts: 6 h', 'lasts: 3 h')
    .replace('to: 16:00', 'to: 13:00')
    .replace('from: 12:00, to: 14:00', 'from: 11:00, to: 12:00'),
);
const SHORT = at('short.yaml');
writeFileSync(SHORT, SHORT_LOOP);

// A stall at which balls come by chance and are lifted one by one: M/M/1/K.
const STALL = at('stall.yaml');
writeFileSync(
  STALL,
  `name: Stall
show: { lasts: 5 h, warm_up: 15 min }
feed: { poisson: 0.5 bps }
modules:
  server: { basket: { balls: 5, order: mixed }, drive: demand, start_at: 1, cycle: { exponential: { mean: 1.2 s } }, travel: 0 s }
`,
);

describe('the published JSON Schema of answers', () => {
  it('is the one the program prints (lapwright schema answer)', () => {
    expect(kept).toEqual(JSON.parse(JSON.stringify(core.answerSchema())));
  });
});

describe('lapwright how-many', () => {
  it('finds the charge of a loop that spills from some number on, in words, JSON and pictures', async () => {
    const { code, stdout, stderr } = await lapwright(
      'how-many',
      LOOP,
      'balls',
      '-n',
      '20',
      '--report',
      at('x.html'),
      '--json',
      at('x.json'),
    );
    expect(code).toBe(0);
    expect(stderr).toMatch(/Written/);
    expect(stdout).toMatch(/^Take \d+ balls: public hours with a spill/);
    expect(stdout).toMatch(/95 % interval/);
    expect(stdout).toMatch(/at most 5 % is kept for sure/);
    const answer = valid(readFileSync(at('x.json'), 'utf8'));
    const { recommended, values, form, on, changes } = answer.details;
    expect([answer.verdict, form, on]).toEqual(['take', 'limit', 'spill_hour_share']);
    expect(changes).toEqual([`--set charge=${recommended}`]);
    expect(answer.pictures[0]?.chosen?.value).toBe(recommended);
    expect(values.find(({ value }) => value === recommended)?.verdict).toBe('yes');
    const html = readFileSync(at('x.html'), 'utf8');
    expect(html).toContain('limit 5 %');
    expect(html).toContain('npx lapwright how-many');
  }, 240_000);

  it('M/M/1/K: takes the smallest basket that loses under 1 %, by the formula 7 balls', async () => {
    // P_K = (1 - r) r^K / (1 - r^(K + 1)), r = 0.6, K = basket + 1: 1.14 % with 6, 0.68 % with 7.
    const { details, verdict } = await asked(
      'how-many',
      STALL,
      'basket',
      'server',
      '--values',
      '5,6,7,8,9',
      '-n',
      '60',
      '--on',
      'spills_per_hour',
      '--limit',
      '18',
    );
    expect([verdict, details.recommended, details.want]).toEqual(['take', 7, 'least']);
    expect(details.changes).toEqual(['--set modules.server.basket.balls=7']);
  });

  it('varies minders, in shifts too, stops, and any number with its unit', async () => {
    const few = ['-n', '4'];
    const minders = await asked('how-many', SHIFTS, 'minders', ...few);
    expect(minders.details).toMatchObject({ thing: { kind: 'minders' }, form: 'enough', today: null });
    expect(minders.details.values.map(({ value }) => value).slice(0, 3)).toEqual([1, 2, 3]);
    const shifts = await asked('how-many', SHIFTS, 'minders', '--shifts', ...few);
    expect(shifts.details).toMatchObject({ thing: { kind: 'shifts' }, today: 0 });
    // With shifts moved by nothing it is the loop as it is.
    expect(shifts.details.now.map(({ measure }) => measure)).toContain('spills_per_hour');
    const stops = await asked(
      'how-many',
      'scenarios/crowding.yaml',
      'stops',
      'jackdaw',
      '--from',
      '0',
      '--to',
      '2',
      '--step',
      '1',
      ...few,
    );
    expect(stops.details).toMatchObject({
      thing: { kind: 'stops', module: 'jackdaw' },
      want: 'most',
      today: 1,
    });
    expect(stops.details.values.map(({ value }) => value)).toEqual([0, 1, 2]);
    const walk = await asked('how-many', SHIFTS, 'crew.walk', '--values', '5 s,60 s', ...few);
    // To walk faster is what costs.
    expect(walk.details).toMatchObject({
      thing: { kind: 'key', key: 'crew.walk', unit: 's' },
      want: 'most',
    });
    const flow = await asked(
      'how-many',
      LOOP,
      'balls',
      '--on',
      'throughput_bps',
      '--values',
      '20,30,40,50',
      ...few,
    );
    expect(flow.details).toMatchObject({ form: 'enough', on: 'throughput_bps', also: [] });
    const least = await asked(
      'how-many',
      LOOP,
      'balls',
      '--on',
      'loop_time_s',
      '--limit',
      '45 s',
      '--most',
      '--from',
      '30',
      '--to',
      '60',
      ...few,
    );
    expect(least.details).toMatchObject({ limit: 45, want: 'most' });
    expect(least.details.recommended).toBeGreaterThan(30);
  }, 240_000);

  it('tries no basket for more balls than there are, unless it is typed', async () => {
    const own = await asked('how-many', SHORT, 'basket', 'pendulum', '-n', '4');
    expect(Math.max(...own.details.values.map(({ value }) => value))).toBe(50);
    const typed = await asked('how-many', SHORT, 'basket', 'pendulum', '--values', '40,60', '-n', '4');
    expect(typed.details.values.map(({ value }) => value)).toEqual([40, 60]);
  }, 240_000);

  it('asks whether balls pass as well when there is a limit, and names whole commands to try next', async () => {
    const minders = await asked(
      'how-many',
      SHIFTS,
      'minders',
      '--on',
      'spills_per_hour',
      '--limit',
      '500',
      '-n',
      '10',
    );
    expect(minders.details).toMatchObject({ want: 'least', also: [{ measure: 'throughput_bps' }] });
    expect(minders.details.values.every(({ value }) => value >= 1)).toBe(true);
    const walk = await asked(
      'how-many',
      SHIFTS,
      'crew.walk',
      '--values',
      '5 s,6 s',
      '--margin',
      '500',
      '-n',
      '8',
    );
    // Of two that make no difference that matters the slower walk: to walk faster is what costs.
    expect(walk.details.recommended).toBe(6);
    expect(walk.next[0]).toContain(`npx lapwright compare ${SHIFTS} --set 'crew.walk=6 s'`);
  }, 240_000);

  it('honours the house rules of the file, and says what fewer balls cost in flow', async () => {
    const file = at('ruled.yaml');
    const text = readFileSync(LOOP, 'utf8');
    const args = ['balls', '--values', '25,30,35', '-n', '20'];
    const plain = await asked('how-many', LOOP, ...args);
    expect(plain.details.recommended).toBe(35);
    expect(plain.sentence).toMatch(
      /It costs flow: balls passing the counter at 0\.9\d+ \(0\.9\d+ to [01]\.\d+\) bps instead of 1\.0\d+ \(1\.\d+ to 1\.\d+\) bps now/,
    );
    writeFileSync(file, `${text}\nhouse_rules: { least_throughput: 1.02 bps }\n`);
    const ruled = await asked('how-many', file, ...args);
    expect(ruled.details.recommended).toBe(null);
    expect(ruled.details.rules).toMatchObject([{ name: 'least_throughput', limit: 1.02 }]);
    expect(ruled.sentence).toMatch(/balls passing the counter would be/);
  }, 240_000);

  it('says so where what is enough is not what the house asks', async () => {
    const file = at('asking.yaml');
    const args = ['minders', '--values', '1,2', '-n', '20'];
    writeFileSync(file, `${readFileSync(LOOP, 'utf8')}\nhouse_rules: { least_throughput: 1.5 bps }\n`);
    expect((await asked('how-many', file, ...args)).because.join(' ')).toMatch(
      /surely breaks (what the house asks: )?balls passing the counter at least 1\.5 bps/,
    );
    writeFileSync(file, `${readFileSync(LOOP, 'utf8')}\nhouse_rules: { least_throughput: 0.1 bps }\n`);
    expect((await asked('how-many', file, ...args)).because.join(' ')).not.toMatch(/house/);
  }, 240_000);

  it('gives the same bytes with 1 and 2 workers, broken off and gone on, and in shards', async () => {
    const study = ['how-many', SHORT, 'balls', '--values', '60,90,120', '-n', '12', '--json'];
    const whole = (await lapwright(...study, '--workers', '1')).stdout;
    expect((await lapwright(...study, '--workers', '2')).stdout).toBe(whole);
    const journal = at('killed.journal');
    expect(await killedAtRandom(study, journal, { times: 3, most: 2000 })).toBeGreaterThan(1);
    writeFileSync(journal, '{"s":"abc","r"', { flag: 'a' });
    const resumed = await lapwright(...study, '--journal', journal, '--resume');
    expect([resumed.code, resumed.stdout]).toEqual([0, whole]);
    const parts = [1, 2].map((k) => at(`part${k}.journal`));
    for (const [i, path] of parts.entries()) {
      const { code, stdout } = await lapwright(...study, '--shard', `${i + 1}/2`, '--journal', path);
      expect([code, stdout]).toEqual([0, expect.stringMatching(/Part . of 2 is done/)]);
    }
    await lapwright('merge', ...parts, '--into', at('all.journal'));
    expect((await lapwright(...study, '--journal', at('all.journal'), '--resume')).stdout).toBe(whole);
  }, 240_000);

  it.each<[string, string[], RegExp]>([
    ['a word nobody knows', [LOOP, 'bals'], /"bals" is\. Did you mean balls\?/],
    ['an unknown key', [LOOP, 'crew.mindres'], /crew\.mindres.*Did you mean minders/],
    ['a key of an unknown module', [LOOP, 'modules.pendulun.basket'], /Did you mean pendulum/],
    ['no module', [LOOP, 'basket'], /basket: it does not say of which module\. Such as how-many FILE basket/],
    ['an unknown module', [LOOP, 'basket', 'pendulun'], /no module "pendulun" here\. Did you mean pendulum/],
    ['a module of a loop', [LOOP, 'balls', 'pendulum'], /is not asked of a module/],
    ['the balls of a chain', ['scenarios/chain-of-five.yaml', 'balls'], /open chain.*feed\.poisson/],
    ['a module that never stops', ['scenarios/chain-of-five.yaml', 'stops', 'first'], /first never stops/],
    ['planned stops', ['scenarios/chain-of-five.yaml', 'stops', 'third'], /planned stops only/],
    ['a group', [DEMO, 'modules.gatehouse.cycle'], /not one number.*gatehouse\.cycle\.lognormal\.mean/],
    ['a key that is not said', [DEMO, 'modules.gatehouse.leak'], /says nothing of it.*--values/],
    ['no number', [LOOP, 'balls', '--values', '5,many'], /"many" is no number/],
    ['a single value', [LOOP, 'balls', '--values', '5,5'], /only one value/],
    [
      'half a ball',
      [LOOP, 'balls', '--values', '5,5.5'],
      /5\.5 is none of the numbers of balls.*whole numbers from 1/,
    ],
    [
      'nobody where a stop needs a minder',
      [SHIFTS, 'minders', '--values', '0,1,2'],
      /0 is none of the numbers of minders \(some stops last until a minder clears them\).*from 1/s,
    ],
    ['minders below none', [LOOP, 'minders', '--values=-1,2'], /-1 is none/],
    ['a range the wrong way', [LOOP, 'balls', '--from', '9', '--to', '5'], /5 is not above 9/],
    ['half a range', [LOOP, 'balls', '--from', '9'], /both its ends/],
    ['a step of nothing', [LOOP, 'balls', '--from', '5', '--to', '9', '--step', '0'], /must be above 0/],
    [
      'too many values',
      [LOOP, 'balls', '--from', '5', '--to', '900', '--step', '1'],
      /896 values, at most 50/,
    ],
    ['values said twice', [LOOP, 'balls', '--from', '5', '--values', '5,6'], /said twice/],
    ['two units', [LOOP, 'crew.walk', '--values', '5 s,1 min'], /different units: s, min/],
    ['a unit where there is none', [LOOP, 'balls', '--values', '5 s,6 s'], /no unit, but "s"/],
    [
      'values that the file does not allow, all at once',
      [DEMO, 'balls', '--values', '600,2000000,3000000'],
      /charge=2000000.*charge=3000000/s,
    ],
    ['a limit of five hundred per cent', [LOOP, 'balls', '--limit', '5'], /'5 %'/],
    ['a limit in words', [LOOP, 'balls', '--limit', 'few'], /"few" is no amount of spill_hour_share/],
    ['a limit and a margin', [LOOP, 'balls', '--limit', '5%', '--margin', '1'], /limit alone decides/],
    ['both most and least', [LOOP, 'balls', '--most', '--least'], /Leave --least or --most out/],
    ['shifts of something else', [LOOP, 'balls', '--shifts'], /belongs to minders/],
    ['shifts where there are none', ['scenarios/crowding.yaml', 'minders', '--shifts'], /all the time here/],
    ['an unknown measure', [LOOP, 'balls', '--on', 'spills'], /spills_per_hour/],
  ])('refuses %s with code 2', async (_, args, message) => {
    const { code, stdout, stderr } = await lapwright('how-many', ...args);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(message);
    expect(stderr).not.toMatch(/\n\s+at .*:\d+:\d+/);
  });

  it('refuses the basket of a module that has none, and one without end unless sizes are named', async () => {
    const text = readFileSync(STALL, 'utf8');
    writeFileSync(at('none.yaml'), text.replace('balls: 5', 'balls: 0'));
    writeFileSync(at('endless.yaml'), text.replace('balls: 5', 'balls: unlimited'));
    const none = await lapwright('how-many', at('none.yaml'), 'basket', 'server');
    expect([none.code, none.stderr]).toEqual([2, expect.stringMatching(/server has no basket/)]);
    const endless = await lapwright('how-many', at('endless.yaml'), 'basket', 'server');
    expect([endless.code, endless.stderr]).toEqual([2, expect.stringMatching(/unlimited.*--values/)]);
    const named = await asked(
      'how-many',
      at('endless.yaml'),
      'basket',
      'server',
      '--values',
      '20,40',
      '-n',
      '4',
    );
    expect(named.details.today).toBe(null);
  });
});

describe('lapwright spares', () => {
  const PLAIN = 'scenarios/crowding.yaml';
  const SPARES = 'scenarios/pull-and-spare.yaml';

  it('ranks spares alone and in pairs, and takes up its journal', async () => {
    const args = ['spares', SPARES, '-n', '10'];
    const { code, stdout } = await lapwright(
      ...args,
      '--json',
      at('spares.json'),
      '--report',
      at('spares.html'),
    );
    expect(code).toBe(0);
    const answer = valid(readFileSync(at('spares.json'), 'utf8')) as unknown as {
      readonly verdict: string;
      readonly details: { readonly sets: readonly { readonly spares: readonly string[] }[] };
    };
    expect(['bring', 'none needed', 'undecided']).toContain(answer.verdict);
    expect(answer.details.sets.map(({ spares }) => spares.length).toSorted((a, b) => a - b)).toEqual([
      0, 1, 1, 2,
    ]);
    const journal = at('spares.journal');
    expect(await killedAtRandom([...args, '--json'], journal, { times: 2, most: 2000 })).toBeGreaterThan(0);
    const resumed = await lapwright(...args, '--json', '--journal', journal, '--resume');
    expect(JSON.parse(resumed.stdout)).toEqual(answer);
    expect(stdout).toMatch(/Bring|Undecided/);
    expect(stdout).toMatch(/95 % interval/);
    expect(readFileSync(at('spares.html'), 'utf8')).toContain('What spares bring');
  }, 240_000);

  it('says what it would take where there are none, or none that is named', async () => {
    const none = await asked('spares', PLAIN);
    expect([none.verdict, none.shows]).toEqual(['no spares in the file', 0]);
    writeFileSync(
      at('unnamed.yaml'),
      `${readFileSync(PLAIN, 'utf8')}\nspares:\n  under: { basket: 50, cycle: 1 s, travel: 5 s }\n`,
    );
    const unnamed = await asked('spares', at('unnamed.yaml'));
    expect(unnamed.verdict).toBe('no pull rule names a spare');
    expect(unnamed.sentence).toContain('under');
  });
});
