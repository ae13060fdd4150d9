import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { lapwright, start } from './runLapwright.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-journals-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => join(folder, name);

const QUICK = [
  'compare',
  'scenarios/two-days.yaml',
  '--set',
  'charge=90',
  '-n',
  '3',
  '--workers',
  '1',
  '--json',
];
/** Never finished here. */
const LONG = ['compare', 'scenarios/demo.yaml', '--set', 'crew.minders=2', '-n', '1000', '--workers', '1'];

const linesOf = (path: string): string[] => readFileSync(path, 'utf8').trimEnd().split('\n');

/** A finished journal of the quick question, under a name of its own, changed line by line. */
async function journal(
  name: string,
  change: (lines: string[]) => string[] = (lines) => lines,
): Promise<string> {
  const whole = at('whole.journal');
  if (!existsSync(whole)) await lapwright(...QUICK, '--journal', whole);
  writeFileSync(at(name), `${change(linesOf(whole)).join('\n')}\n`);
  return at(name);
}

/** Puts other values into the show of one line. */
function withValues(line: string, change: (values: number[]) => number[]): string {
  const show = JSON.parse(line) as { s: string; r: number; v: number[] };
  return JSON.stringify({ ...show, v: change(show.v) });
}

async function until(holds: () => boolean): Promise<void> {
  while (!holds()) await new Promise((resolve) => setTimeout(resolve, 10));
}

describe('the journal of a running question', () => {
  it('is not to be had by another, which is told who has it; after kill -9 it is', async () => {
    const path = at('held.journal');
    const { child, finished } = start([...LONG, '--journal', path]);
    // The head and a show.
    await until(() => existsSync(path) && linesOf(path).length > 1);
    for (const more of [[], ['--resume']]) {
      const refused = await lapwright(...LONG, '--journal', path, ...more);
      expect([refused.code, refused.stdout]).toEqual([2, '']);
      expect(refused.stderr).toContain(`process ${child.pid} writes into this journal`);
      expect(refused.stderr).toMatch(/Wait until it has finished, stop it, or name another journal/);
    }
    child.kill('SIGKILL');
    await finished;
    expect(existsSync(`${path}.lock`)).toBe(true);
    const known = linesOf(path).length;
    const next = start([...LONG, '--journal', path, '--resume']);
    await until(() => linesOf(path).length > known);
    expect(JSON.parse(readFileSync(`${path}.lock`, 'utf8'))).toEqual({
      pid: next.child.pid,
      host: hostname(),
    });
    next.child.kill('SIGINT');
    expect((await next.finished).code).toBe(130);
    // It stopped in good order, so that its lock is gone; every line is whole.
    expect(existsSync(`${path}.lock`)).toBe(false);
    for (const line of linesOf(path)) expect(() => JSON.parse(line) as unknown).not.toThrow();
  });

  it.each<[string, string, RegExp]>([
    [
      'of another machine',
      '{"pid":1,"host":"elsewhere.example"}\n',
      /process 1 on the machine elsewhere\.example/,
    ],
    ['that cannot be read', 'nobody', /another process writes into this journal.*delete .*\.lock/],
  ])('is not taken from a holder %s', async (name, text, message) => {
    const path = at(`${name}.journal`);
    writeFileSync(`${path}.lock`, text);
    const { code, stderr } = await lapwright(...QUICK, '--journal', path);
    expect(code).toBe(2);
    expect(stderr).toMatch(message);
    expect([existsSync(path), readFileSync(`${path}.lock`, 'utf8')]).toEqual([false, text]);
  });
});

describe('a journal that cannot be gone on with', () => {
  it('of another version of the program or model is told as such', async () => {
    const older = await journal('older.journal', ([head = '', ...rest]) => [
      head.replace(/"program":"[^"]*","model":\d+/, '"program":"0.0.9","model":0'),
      ...rest,
    ]);
    const { code, stdout, stderr } = await lapwright(...QUICK, '--journal', older, '--resume');
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(
      /older\.journal:1:1: this journal was written by version 0\.0\.9 \(model 0\) of the program, and this is version/,
    );
    const first = await journal('first.journal', ([head = '', ...rest]) => [
      head.replace(/"program":"[^"]*","model":\d+,/, '').replace('"format":2', '"format":1'),
      ...rest,
    ]);
    const merged = await lapwright('merge', first, older, '--into', at('both.journal'));
    expect(merged.code).toBe(2);
    expect(merged.stderr).toMatch(/first\.journal:1:1: .*an older version[\s\S]*older\.journal:1:1/);
    expect(existsSync(at('both.journal'))).toBe(false);
  });

  it('names every line with a wrong number of values at once', async () => {
    const bad = await journal('short.journal', (lines) =>
      lines.map((line, i) => {
        if (i === 2) return withValues(line, (values) => values.slice(1));
        return i === 4 ? withValues(line, (values) => [...values, 7]) : line;
      }),
    );
    const { code, stdout, stderr } = await lapwright(...QUICK, '--journal', bad, '--resume');
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(
      /^6 shows are in .*short\.journal already\.\nlapwright: 2 problems found\n.*short\.journal:3:1: \d+ values .*\n.*short\.journal:5:1: /,
    );
    expect(stderr).toMatch(/Take the line out; its show is simulated again/);
    // And that helps.
    const mended = await journal('mended.journal', (lines) => lines.filter((_, i) => i !== 2 && i !== 4));
    const whole = await lapwright(...QUICK);
    expect((await lapwright(...QUICK, '--journal', mended, '--resume')).stdout).toBe(whole.stdout);
  });

  it('is left as it is when it is a line of something else', async () => {
    const notes = at('notes.txt');
    writeFileSync(notes, 'bring the long screwdriver');
    const { code, stderr } = await lapwright(...QUICK, '--journal', notes, '--resume');
    expect(code).toBe(2);
    expect(stderr).toMatch(/this is not a journal of a study/);
    expect(readFileSync(notes, 'utf8')).toBe('bring the long screwdriver');
  });
});

describe('lapwright merge', () => {
  it('takes the same show twice, and refuses shows that contradict each other', async () => {
    const one = await journal('one.journal');
    const same = await journal('same.journal', (lines) => lines.slice(0, 3));
    const good = await lapwright('merge', one, same, '--into', at('good.journal'));
    expect([good.code, good.stderr]).toEqual([0, expect.stringMatching(/6 shows/)]);
    expect(statSync(at('good.journal')).size).toBe(statSync(one).size);

    const other = await journal('other.journal', ([head = '', ...rest]) => [
      head,
      ...rest
        .toReversed()
        .map((line, i) => (i < 2 ? withValues(line, ([x = 0, ...more]) => [x + 1, ...more]) : line)),
    ]);
    const { code, stderr } = await lapwright('merge', one, other, '--into', at('never.journal'));
    expect(code).toBe(2);
    expect(stderr).toMatch(/2 problems found/);
    // Where each is: the last line of one is the first show of the other.
    expect(stderr).toMatch(
      /other\.journal:2:1: show \d of system \w+ has other values here than in .*one\.journal:7/,
    );
    expect(stderr).toMatch(/other\.journal:3:1: .*one\.journal:6/);
    expect(existsSync(at('never.journal'))).toBe(false);
    expect(existsSync(at('never.journal.lock'))).toBe(false);
  });
});
