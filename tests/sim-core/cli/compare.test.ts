import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, describe, expect, it } from 'vitest';
import { core } from '../../programs/builtCore.js';
import { killedAtRandom } from './killedAtRandom.js';
import { lapwright } from './runLapwright.js';
import { SHORT_LOOP } from './shortLoop.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-compare-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => join(folder, name);

const BEFORE = at('short.yaml');
writeFileSync(BEFORE, SHORT_LOOP);
writeFileSync(at('more.yaml'), SHORT_LOOP.replace(/^charge: \d+/m, 'charge: 90'));
const STUDY = ['compare', BEFORE, at('more.yaml'), '-n', '40', '--json'];

describe('lapwright compare', () => {
  it('says which of two is better, with figures and a verdict', async () => {
    const { code, stdout, stderr } = await lapwright('compare', BEFORE, at('more.yaml'), '-n', '10');
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/^(Better|Worse|No difference that matters|Undecided): /);
    expect(stdout).toMatch(/balls passing the counter +[\d.]+ bps +[\d.]+ bps +-?[\d.]+ to -?[\d.]+ bps/);
    expect(stdout).toMatch(/both met the same luck/);
  });

  it('gives the same bytes with 1 and 2 workers, broken off at random and gone on, and in shards', async () => {
    const whole = (await lapwright(...STUDY, '--workers', '1')).stdout;
    expect(JSON.parse(whole)).toMatchObject({
      kind: 'lapwright-answer',
      question: 'compare',
      seed: 1,
      shows: 80,
      details: { replications: 40 },
    });
    expect((await lapwright(...STUDY, '--workers', '2')).stdout).toBe(whole);

    const journal = at('killed.journal');
    // 80 shows of some 170 bytes each.
    expect(await killedAtRandom(STUDY, journal, { times: 3, most: 3000 })).toBeGreaterThan(1);
    // The last line may have been cut off in the middle.
    writeFileSync(journal, '{"s":"abc","r"', { flag: 'a' });
    const resumed = await lapwright(...STUDY, '--journal', journal, '--resume');
    expect([resumed.code, resumed.stdout]).toEqual([0, whole]);

    const shards = [1, 2, 3].map((k) => at(`shard${k}.journal`));
    for (const [i, path] of shards.entries()) {
      const { code } = await lapwright(...STUDY, '--shard', `${i + 1}/3`, '--journal', path);
      expect(code).toBe(0);
    }
    const merged = await lapwright('merge', ...shards, '--into', at('all.journal'));
    expect([merged.code, merged.stderr]).toEqual([0, expect.stringMatching(/80 shows/)]);
    const again = await lapwright(...STUDY, '--journal', at('all.journal'), '--resume');
    expect(again.stdout).toBe(whole);
  });

  it('compares a file with a change to it, as with the changed file', async () => {
    const changed = await lapwright('compare', BEFORE, '--set', 'charge=90', '-n', '4', '--json');
    const byFile = await lapwright('compare', BEFORE, at('more.yaml'), '-n', '4', '--json');
    const figures = ({ stdout }: { stdout: string }): unknown =>
      (JSON.parse(stdout) as { details: { measures: unknown } }).details.measures;
    expect(changed.code).toBe(0);
    expect(figures(changed)).toEqual(figures(byFile));
    expect(JSON.parse(changed.stdout)).toMatchObject({
      scenarios: [{ changes: [] }, { changes: ['--set charge=90'] }],
    });
    const text = await lapwright('compare', BEFORE, '--set', 'charge=90', '-n', '4');
    expect(text.stdout).toMatch(/90/);
  });

  it.each<[string, string[], RegExp]>([
    ['one file only', ['compare', BEFORE], /nothing to compare with.*--set crew\.minders=2/s],
    ['an unknown key', ['compare', BEFORE, '--set', 'crew.mindres=2'], /mindres.*minders/s],
    ['an unknown measure', [...STUDY, '--on', 'spills'], /spills_per_hour/],
    ['a negative margin', [...STUDY, '--margin=-1'], /is no amount of spills_per_hour/],
    ['a shard that is none', [...STUDY, '--shard', '9/8'], /like 3\/8/],
    ['a journal of another kind', [...STUDY, '--journal', 'package.json', '--resume'], /not a journal/],
    ['a journal that is there', [...STUDY, '--journal', 'package.json'], /there is a file already/],
    [
      'the journal as output',
      [...STUDY.slice(0, -1), '--journal', at('x.json'), '--json', at('x.json')],
      /overwrite the journal/,
    ],
    ['a journal in no folder', [...STUDY, '--journal', 'nowhere/j'], /cannot be written/],
    ['a shard without a journal', [...STUDY, '--shard', '1/2'], /needs a journal/],
    ['--resume without a journal', [...STUDY, '--resume'], /needs a journal/],
    [
      'a missing journal to merge',
      ['merge', 'none.journal', '--into', at('x.journal')],
      /none\.journal: there is no such file/,
    ],
  ])('refuses %s with code 2', async (_, args, message) => {
    const { code, stdout, stderr } = await lapwright(...args);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(message);
    expect(stderr).not.toMatch(/\n\s+at .*:\d+:\d+/);
  });
});

describe('lapwright mend-first', () => {
  it('ranks the modules that stop, and takes up its journal', async () => {
    const args = ['mend-first', 'scenarios/crowding.yaml', '-n', '8', '--json'];
    const first = await lapwright(...args, '--journal', at('mend.journal'));
    expect(first.code).toBe(0);
    const { details } = JSON.parse(first.stdout) as { details: { modules: { id: string }[] } };
    expect(details.modules.length).toBeGreaterThan(0);
    const again = await lapwright(...args, '--journal', at('mend.journal'), '--resume');
    expect(again.stdout).toBe(first.stdout);
    // It decides on the way what to simulate next: killed ten times at random it says the same.
    const killed = at('mend-killed.journal');
    expect(await killedAtRandom(args, killed, { times: 10, most: 400 })).toBeGreaterThan(4);
    const resumed = await lapwright(...args, '--journal', killed, '--resume');
    expect([resumed.code, resumed.stdout]).toEqual([0, first.stdout]);
    const text = (await lapwright('mend-first', 'scenarios/crowding.yaml', '-n', '8')).stdout;
    expect(text).toMatch(/[Mm]end .* first|Of no single module/);
    expect(text).toContain('95 % interval');
  });

  it('can be done in parts, round by round, to the same bytes', async () => {
    const args = ['mend-first', 'scenarios/crowding.yaml', '-n', '12', '--json'];
    const whole = (await lapwright(...args)).stdout;
    let all: string | undefined;
    const answered: string[] = [];
    for (let round = 1; answered.length < 2 && round <= 8; round++) {
      const parts = [1, 2].map((k) => at(`mend-${round}-${k}.journal`));
      answered.length = 0;
      for (const [i, path] of parts.entries()) {
        if (all !== undefined) copyFileSync(all, path);
        const { code, stdout } = await lapwright(
          ...args,
          '--shard',
          `${i + 1}/2`,
          '--journal',
          path,
          '--resume',
        );
        expect(code).toBe(0);
        if (stdout === whole) answered.push(stdout);
        else expect(stdout).toMatch(/Part \d of 2 is done/);
      }
      all = at(`mend-${round}.journal`);
      expect((await lapwright('merge', ...parts, '--into', all)).code).toBe(0);
    }
    expect(answered).toEqual([whole, whole]);
  });

  it('does not write an answer over the journal of another study', async () => {
    const path = at('kept.journal');
    const ask = ['compare', BEFORE, at('more.yaml'), '-n', '2'];
    expect((await lapwright(...ask, '--journal', path)).code).toBe(0);
    const journal = readFileSync(path, 'utf8');
    const { code, stderr } = await lapwright(...ask, '--json', path);
    expect([code, stderr]).toEqual([2, expect.stringMatching(/would be lost/)]);
    expect(readFileSync(path, 'utf8')).toBe(journal);
  });

  it.each([
    ['compare', ['compare', BEFORE, at('more.yaml'), '-n', '6']],
    ['mend-first', ['mend-first', 'scenarios/crowding.yaml', '-n', '6']],
    ['enough', ['enough', BEFORE, '--on', 'loop_time_s', '--at-most', '40']],
  ])('%s gives an answer that keeps to the schema, and a report', async (_, args) => {
    const report = at(`${args[0]}.html`);
    const { code, stdout } = await lapwright(...args, '--json', '--report', report);
    expect(code).toBe(0);
    const validate = new Ajv2020({ allErrors: true, allowUnionTypes: true }).compile(core.answerSchema());
    expect(validate(JSON.parse(stdout)), JSON.stringify(validate.errors?.slice(0, 3))).toBe(true);
    expect(readFileSync(report, 'utf8')).toMatch(/How sure this is/);
  });
});
