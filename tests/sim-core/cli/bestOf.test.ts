import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, describe, expect, it } from 'vitest';
import { core } from '../../programs/builtCore.js';
import { killedAtRandom } from './killedAtRandom.js';
import { MORNINGS } from './mornings.js';
import { lapwright } from './runLapwright.js';
import { SHORT_LOOP } from './shortLoop.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-best-of-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => join(folder, name);

const kept = JSON.parse(readFileSync('packages/sim-core/schema/answer.schema.json', 'utf8')) as object;
const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(kept);

const FILE = at('mornings.yaml');
writeFileSync(FILE, MORNINGS);
const VARIANTS = [
  '--variant',
  'more balls: --set charge=90',
  '--variant',
  '--set charge=62 --set crew.notice=1 s',
];
const SHORT = at('short.yaml');
writeFileSync(SHORT, SHORT_LOOP);
const STUDY = [
  'best-of',
  SHORT,
  ...VARIANTS,
  '-n',
  '40',
  '--on',
  'throughput_bps',
  '--zone',
  '0.002',
  '--json',
];

describe('lapwright best-of', () => {
  it('names the best of a file and variants of it, with its chance and the shows of each', async () => {
    const { code, stdout, stderr } = await lapwright('best-of', FILE, ...VARIANTS, '-n', '80');
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/^Take this one: as it is\. It is the best of 3 with a chance of\s95 % at least/);
    expect(stdout).toMatch(/more balls +[\d.]+ per hour +[\d.]+ to [\d.]+ per hour .* 36 +36\n/);
    expect(stdout).toMatch(/5 %\sof\sthe\smean\sof\smore\sballs\sin\sthe\sfirst\s36\sshows/);
  });

  it('writes JSON after its published schema, and a report', async () => {
    expect(kept).toEqual(JSON.parse(JSON.stringify(core.answerSchema())));
    const report = ['--report', at('best.html')];
    for (const more of [report, ['--independent'], ['--on', 'pulls_per_show']]) {
      const { stdout } = await lapwright('best-of', SHORT, ...VARIANTS, '-n', '10', ...more, '--json');
      const answer = JSON.parse(stdout) as object;
      expect(validate(answer), JSON.stringify(validate.errors)).toBe(true);
      expect(answer).toMatchObject({
        question: 'best-of',
        scenarios: [{ changes: [] }, { changes: ['--set charge=90'] }, { changes: { length: 2 } }],
      });
    }
    expect(readFileSync(at('best.html'), 'utf8')).toMatch(/How much worse than as it is/);
  });

  it.each([['in turn'], ['in two stages']])(
    'gives the same bytes with 1 and 2 workers, and broken off and gone on, %s',
    async (how) => {
      const study = how === 'in turn' ? STUDY : [...STUDY, '--independent'];
      const whole = (await lapwright(...study, '--workers', '1')).stdout;
      expect((await lapwright(...study, '--workers', '2')).stdout).toBe(whole);
      const journal = at(`${how}.journal`);
      expect(await killedAtRandom(study, journal, { times: 3, most: 1500 })).toBeGreaterThan(1);
      const resumed = await lapwright(...study, '--journal', journal, '--resume');
      expect([resumed.code, resumed.stdout]).toEqual([0, whole]);
    },
  );

  it('compares files too', async () => {
    writeFileSync(at('more.yaml'), SHORT_LOOP.replace(/^charge: \d+/m, 'charge: 90'));
    const { stdout } = await lapwright('best-of', SHORT, at('more.yaml'), '-n', '10', '--json');
    expect(JSON.parse(stdout)).toMatchObject({
      title: 'The best of 2',
      details: { best: 'short.yaml', contenders: [{}, { label: 'more.yaml' }] },
    });
  });

  it.each<[string, string[], RegExp]>([
    ['one loop only', [FILE], /nothing to choose from\. .*--variant "--set crew\.minders=2"/],
    ['the same loop twice', [FILE, '--variant', 'x: --set charge=50'], /"x" is the same loop as "as it is"/],
    [
      'a name twice',
      [FILE, '--variant', 'x: --set charge=55', '--variant', 'x: --set charge=56'],
      /two of them are called "x"/,
    ],
    ['too few shows', [FILE, ...VARIANTS, '-n', '9'], /--replications: found 9, but this must be 10 or more/],
    ['a zone of nothing', [FILE, ...VARIANTS, '--zone', '0'], /a number above 0/],
    ['a chance that is none', [FILE, ...VARIANTS, '--confidence', '1.2'], /a chance above 0\.5 and below 1/],
    [
      'wrong variants, all at once',
      [FILE, '--variant', '--sett a=3', '--variant', '--set crew.mindres=2', '--variant', '--swap a,b'],
      /--sett is no option.*\n.*mindres.*minders.*\n.*no module "a"/,
    ],
  ])('refuses %s with code 2', async (_, args, message) => {
    const { code, stdout, stderr } = await lapwright('best-of', ...args);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(message);
    expect(stderr).not.toMatch(/\n\s+at .*:\d+:\d+/);
  });
});
