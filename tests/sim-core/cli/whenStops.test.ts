import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, describe, expect, it } from 'vitest';
import { core } from '../../programs/builtCore.js';
import { killedAtRandom } from './killedAtRandom.js';
import { lapwright } from './runLapwright.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-stops-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => join(folder, name);
const valid = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(core.answerSchema());

const ASK = ['when-stops', 'scenarios/lever.yaml', 'sleepwalker'];
const CARD = ['flood-card', 'scenarios/pull-and-spare.yaml'];

describe('lapwright when-stops', () => {
  it('says how soon what floods, how much falls, when it is calm and by when to act', async () => {
    const { code, stdout, stderr } = await lapwright(
      ...ASK,
      '-n',
      '20',
      '--for',
      '4min',
      '--swap-takes',
      '30s',
    );
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/If sleepwalker stops now for 4 min,\s+its\s+own\s+basket\s+floods\s+after/);
    expect(stdout).toMatch(
      /\d+\s+balls\s+fall\s+while\s+it\s+stands\s+still\s+and\s[\s\S]*in\s+all\s+because\s+of\s+it\s+on\s+average\s+\(95\s+%\s+interval/,
    );
    expect(stdout).toMatch(
      /in shows +one of twenty +its 95 % interval +half +its 95 % interval +19 of twenty/,
    );
    expect(stdout).toMatch(/calm again/);
    expect(stdout).toMatch(/begin\s+within[\s\S]*set\s+the\s+lever\s+of\s+pump-house/);
    expect(stdout).toMatch(/take\s+it\s+out\s+and\s+put\s+in\s+a\s+plain\s+chute\s+\(30\s+s\s+of\s+work\)/);
    expect(stdout).not.toContain('NaN');
  });

  it('gives the same bytes with 1 and 2 workers, broken off and gone on, and in shards', async () => {
    const asked = [...ASK, '-n', '12', '--for', '3min', '--json'];
    const whole = (await lapwright(...asked, '--workers', '1')).stdout;
    expect(JSON.parse(whole)).toMatchObject({
      question: 'when-stops',
      verdict: 'floods',
      details: { stop_s: 180, clear_s: null, module: 'sleepwalker' },
    });
    expect(valid(JSON.parse(whole)), JSON.stringify(valid.errors)).toBe(true);
    expect((await lapwright(...asked, '--workers', '2')).stdout).toBe(whole);
    const journal = at('killed.journal');
    expect(await killedAtRandom(asked, journal, { times: 2, most: 6000 })).toBeGreaterThan(0);
    expect((await lapwright(...asked, '--journal', journal, '--resume')).stdout).toBe(whole);
    const shards = [1, 2].map((k) => at(`shard${k}.journal`));
    for (const [i, path] of shards.entries())
      await lapwright(...asked, '--shard', `${i + 1}/2`, '--journal', path);
    await lapwright('merge', ...shards, '--into', at('all.journal'));
    expect((await lapwright(...asked, '--journal', at('all.journal'), '--resume')).stdout).toBe(whole);
  });

  it('knows a moment of the show, levels from the table, and a minder who comes', async () => {
    const details = async (...args: string[]): Promise<Record<string, unknown>> => {
      const { stdout, stderr } = await lapwright(...ASK, '-n', '10', '--json', ...args);
      expect(stderr).toBe('');
      const answer = JSON.parse(stdout) as { details: Record<string, unknown> };
      expect(valid(answer), JSON.stringify(valid.errors)).toBe(true);
      return answer.details;
    };
    expect(await details('--at', '11:30')).toMatchObject({ at_s: 5400 });
    expect(await details('--cleared-in', '2 min')).toMatchObject({ stop_s: null, clear_s: 120 });
    const p50 = ({ full }: Record<string, unknown>): number => (full as { p50: { mean: number } }).p50.mean;
    const [empty, full] = [
      await details('--levels', 'sleepwalker=0,pump-house=100'),
      await details('--levels', 'sleepwalker=40,pump-house=70'),
    ];
    expect(empty['at_s']).toBe(0);
    // Forty balls at the pump's 2 in 1.9 s are 38 s.
    expect(Math.abs(p50(empty) - p50(full) - 38)).toBeLessThan(2);
  });

  it('writes a report', async () => {
    const path = at('report.html');
    const { code } = await lapwright(...ASK, '-n', '10', '--report', path);
    expect(code).toBe(0);
    const html = readFileSync(path, 'utf8');
    expect(html).toContain('When sleepwalker stops for 5 min');
    expect(html.match(/<svg/g)?.length).toBe(2);
    expect(html).toContain('npx lapwright when-stops scenarios/lever.yaml sleepwalker -n 10');
  });

  it.each<[string, string[], RegExp]>([
    [
      'a module that is not there',
      ['sleepwalkr'],
      /found "sleepwalkr", but this must be a module of the loop.*sleepwalker\?/,
    ],
    ['a stop without its unit', ['sleepwalker', '--for', '5'], /time above 0 with its unit.*5 s/],
    ['two kinds of stop', ['sleepwalker', '--for', '5min', '--cleared-in', '1min'], /cannot be used with/],
    [
      'a moment and levels',
      ['sleepwalker', '--at', '11:00', '--levels', 'pump-house=3'],
      /cannot be used with/,
    ],
    [
      'a moment that is not in the show',
      ['sleepwalker', '--at', '15:30'],
      /--at: 15:30 is not in the show|after the opening/,
    ],
    ['a stop longer than the show', ['sleepwalker', '--at', '13:58'], /not over when the show is/],
    [
      'levels that cannot be, all at once',
      ['sleepwalkr', '--levels', 'pump=3,sleepwalker,milk-float=1,milk-float=2'],
      /sleepwalkr[\s\S]*"pump"[\s\S]*found "sleepwalker"[\s\S]*named once/,
    ],
    [
      'more than a basket holds',
      ['sleepwalker', '--levels', 'sleepwalker=61'],
      /at most 60, which its basket holds/,
    ],
    ['a sureness that is none', ['sleepwalker', '--sure', '20 %'], /above 50 % and below 100 %/],
  ])('refuses %s with code 2', async (_, args, message) => {
    const { code, stdout, stderr } = await lapwright('when-stops', 'scenarios/lever.yaml', ...args);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(message);
    expect(stderr).not.toMatch(/\n\s+at .*:\d+:\d+/);
  });

  it('says so when the module never runs at that moment', async () => {
    writeFileSync(
      at('rests.yaml'),
      readFileSync('scenarios/back-up.yaml', 'utf8').replace('itself: 4 min', 'itself: 10 min'),
    );
    const { code, stderr } = await lapwright(
      'when-stops',
      at('rests.yaml'),
      'night-porter',
      '--at',
      '25min',
      '-n',
      '4',
    );
    expect(code).toBe(1);
    expect(stderr).toMatch(/stands still or is out of the loop at that moment in 4 of 4 shows/);
  });
});

describe('what to try next', () => {
  it.each([
    [[...ASK, '--for', '4min', '--levels', 'pump-house=100']],
    [['flood-card', 'scenarios/lever.yaml', '--moments', '2']],
  ])('is commands that can be typed: %j', async (asked) => {
    const { stdout } = await lapwright(...asked, '-n', '4', '--json');
    const { next } = JSON.parse(stdout) as { next: string[] };
    expect(next.length).toBeGreaterThan(0);
    for (const line of next) {
      const typed = /: npx lapwright (.*)$/.exec(line)?.[1] ?? '';
      const words = typed.split(' ').map((word) => word.replaceAll("'", ''));
      const { code, stderr } = await lapwright(...words, '-n', '2');
      expect([line, code, stderr]).toEqual([line, 0, '']);
    }
  });
});

describe('lapwright flood-card', () => {
  it.each(['when-stops', 'flood-card'])(
    'shows the time that %s watches as it would be typed',
    async (name) => {
      const { stdout } = await lapwright(name, '--help');
      expect(stdout).toMatch(/--watch <time>[^-]*\(default:\s+30min\)/);
    },
  );

  it('prints a line for each module, and what to do first', async () => {
    const { code, stdout, stderr } = await lapwright(...CARD, '-n', '10');
    expect([code, stderr]).toEqual([0, '']);
    // Each quantile has its interval.
    expect(stdout).toMatch(/one of twenty +its 95 % interval +half +its 95 % interval +first/);
    for (const id of ['spool', 'silver-thread', 'bobbin', 'gold-thread'])
      expect(stdout).toContain(`\n${id} `);
    // With so few balls its basket does not fill: no hurry, here as on the card.
    expect(stdout).toMatch(/silver-thread +over 30 min +- +over 30 min +- +no hurry/);
    const small = readFileSync('scenarios/pull-and-spare.yaml', 'utf8').replace('basket: 80', 'basket: 20');
    writeFileSync(at('small.yaml'), small);
    const { stdout: soon } = await lapwright('flood-card', at('small.yaml'), '-n', '10');
    expect(soon).toMatch(/silver-thread.* to .*swap in twine \(1 min 30 s\)/);
    expect(stdout).not.toContain('NaN');
  });

  it('gives the same bytes with 1 and 2 workers and from a journal', async () => {
    const asked = [...CARD, '-n', '8', '--moments', '3', '--watch', '10min', '--json'];
    const whole = (await lapwright(...asked, '--workers', '1', '--journal', at('card.journal'))).stdout;
    expect(valid(JSON.parse(whole)), JSON.stringify(valid.errors)).toBe(true);
    expect(JSON.parse(whole)).toMatchObject({ shows: 8, details: { moments: 3, watched_s: 600 } });
    expect((await lapwright(...asked, '--workers', '2')).stdout).toBe(whole);
    expect((await lapwright(...asked, '--journal', at('card.journal'), '--resume')).stdout).toBe(whole);
  });

  it('writes the card to print', async () => {
    const { code } = await lapwright(...CARD, '-n', '6', '--report', at('card.html'));
    expect(code).toBe(0);
    const html = readFileSync(at('card.html'), 'utf8');
    expect(html).toContain('if it stops now, its basket floods after');
    expect(html.match(/<tr/g)?.length).toBe(5);
  });
});
