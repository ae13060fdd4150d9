import {
  closeSync,
  linkSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { RunResult } from '@lapwright/sim-core';
import { afterAll, describe, expect, it } from 'vitest';
import { changed, SOUND } from '../scenario/brokenScenarios.js';
import { lapwright, start } from './runLapwright.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-cli-'));
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, content: string): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

const BENCH = 'scenarios/bench-one.yaml';
const STACK = /\n\s+at .*:\d+:\d+/;

describe('lapwright', () => {
  it('prints help and version', async () => {
    const help = await lapwright('--help');
    expect(help.code).toBe(0);
    expect(help.stdout).toMatch(/check.*run.*schema/s);
    expect((await lapwright('--version')).stdout.trim()).toMatch(/^\d+\.\d+\.\d+$/);
    expect((await lapwright('run', '--help')).stdout).toMatch(
      /--replications.*--seed.*--workers.*--json.*--report/s,
    );
  });

  it.each<[string, string[], RegExp]>([
    ['no command', [], /Usage/],
    [
      'a change that run does not make',
      ['run', 'a.yaml', '--set', 'charge=3'],
      /npx lapwright compare a\.yaml --set/,
    ],
    ['an unknown command', ['rnu'], /unknown command 'rnu'.*Did you mean run/s],
    [
      'an unknown option',
      ['run', BENCH, '--replication', '5'],
      /unknown option '--replication'.*Did you mean --replications/s,
    ],
    ['no file', ['run'], /missing required argument 'file'/],
    ['a number that is none', ['run', BENCH, '-n', 'ten'], /whole number from 1 to 1000000/],
    ['a number too large', ['run', BENCH, '-n', '1e9'], /whole number from 1 to 1000000/],
    ['no replication', ['run', BENCH, '-n', '0'], /whole number from 1/],
    ['a negative seed', ['run', BENCH, '--seed=-1'], /whole number from 0/],
    ['no worker', ['run', BENCH, '--workers', '0'], /whole number from 1 to 256/],
    ['an unknown schema', ['schema', 'report'], /scenario or result/],
    ['a missing file', ['check', 'none.yaml'], /none\.yaml: there is no such file/],
    ['a folder', ['run', 'scenarios'], /this is a folder/],
    ['a report in no folder', ['run', BENCH, '--report', 'nowhere/r.html'], /there is no folder nowhere/],
    ['a report over the scenario', ['run', BENCH, '--report', BENCH], /would overwrite the scenario file/],
    [
      'a report and a result in one file',
      ['run', BENCH, '--report', 'x.html', '--json', 'x.html'],
      /would overwrite the file of --json/,
    ],
    ['a result that is a folder', ['run', BENCH, '--json', 'tests'], /this is a folder/],
    ['a report that is no page', ['run', BENCH, '--report', 'r.pdf'], /name that ends in \.html/],
    ['a result that looks like a scenario', ['run', BENCH, '--json', 'new.yaml'], /name that ends in \.json/],
    ['a result over a file of another kind', ['run', BENCH, '--json', 'package.json'], /another kind/],
    ['a name too long', ['run', BENCH, '--report', `${'x'.repeat(300)}.html`], /the name is too long/],
    [
      'two outputs that cannot be written',
      ['run', BENCH, '--json', 'no/a.json', '--report', 'no/b.html'],
      /2 problems found/,
    ],
  ])('refuses %s with code 2 and no stack trace', async (_, args, message) => {
    const { code, stdout, stderr } = await lapwright(...args);
    expect(code).toBe(2);
    expect(stdout + stderr).toMatch(message);
    expect(stderr).not.toMatch(STACK);
  });

  it('tells every problem of a broken scenario and ends with code 2', async () => {
    const broken = changed({ line: 5, from: '6 h', to: '6' }).replace('batch: 4', 'batch: -4');
    for (const command of ['check', 'run']) {
      const { code, stdout, stderr } = await start([command, file('broken.yaml', broken)]).finished;
      expect([code, stdout]).toEqual([2, '']);
      expect(stderr).toMatch(
        /2 problems found\n.*broken\.yaml:5:10: show\.lasts: .*\n.*broken\.yaml:22:12: templates\.wheel\.batch: /,
      );
      expect(stderr).not.toMatch(STACK);
    }
  });
});

describe('lapwright check', () => {
  it.each(readdirSync('scenarios').filter((name) => name.endsWith('.yaml')))(
    'finds scenarios/%s in order',
    async (name) => {
      const { code, stdout, stderr } = await lapwright('check', `scenarios/${name}`);
      expect([code, stderr]).toEqual([0, '']);
      expect(stdout).toMatch(/is in order/);
      expect(stdout).toMatch(/slowest/);
      expect(stdout).toMatch(/type 1 interface standard/);
      expect(stdout.split('\n').every((line) => line.length <= 80)).toBe(true);
    },
  );

  it('shows the formulas on request, and prints JSON', async () => {
    expect((await lapwright('check', BENCH, '--formulas')).stdout).toMatch(
      /batch x catch \/ mean cycle x running/,
    );
    const { stdout } = await lapwright('check', 'scenarios/demo.yaml', '--json');
    const result = JSON.parse(stdout) as {
      modules: { id: string; capacity_bps: number; floods_after_s: number }[];
      flow_bps: number;
    };
    expect(result.modules).toHaveLength(50);
    expect(result.modules[0]).toMatchObject({ id: 'gatehouse' });
    expect(result.flow_bps).toBeGreaterThan(0.5);
    expect(
      result.modules.every(({ capacity_bps, floods_after_s }) => capacity_bps > 0 && floods_after_s > 0),
    ).toBe(true);
  });

  it('names the modules on the side table', async () => {
    const { stdout } = await lapwright(
      'check',
      file('side.yaml', SOUND.replace('[lift, tipper, wheel-two]', '[lift, tipper]')),
    );
    expect(stdout).toMatch(/On the side table: wheel-two/);
  });
});

describe('lapwright run', () => {
  it('prints a summary that fits one screen, without progress when piped', async () => {
    const { code, stdout, stderr } = await start(['run', 'scenarios/demo.yaml', '-n', '4']).finished;
    expect([code, stderr]).toEqual([0, '']);
    const lines = stdout.split('\n');
    expect(lines.length).toBeLessThanOrEqual(24);
    expect(lines.every((line) => line.length <= 80)).toBe(true);
    expect(stdout.replaceAll('\n', ' ')).toMatch(/4 simulated shows of 12 h 30 min/);
    expect(stdout).toMatch(/95 % interval/);
  });

  it('prints the same JSON with 1 and 2 workers, byte for byte', async () => {
    const [one, two] = await Promise.all(
      ['1', '2'].map((workers) =>
        lapwright('run', 'scenarios/demo.yaml', '-n', '3', '--json', '--workers', workers),
      ),
    );
    expect(one?.code).toBe(0);
    expect(two?.stdout).toBe(one?.stdout);
    const result = JSON.parse(one?.stdout ?? '') as RunResult;
    expect(result).toMatchObject({ replications: 3, seed: 1, partial: false });
  });

  it('writes JSON and report to files, and the same report again', async () => {
    const [json, report, again] = ['r.json', 'r.html', 'again.html'].map((name) => join(folder, name));
    const first = await lapwright('run', BENCH, '-n', '3', '--json', json ?? '', '--report', report ?? '');
    expect(first.code).toBe(0);
    expect(first.stdout).toMatch(/One module on the bench/);
    await lapwright('run', BENCH, '-n', '3', '--workers', '1', '--report', again ?? '');
    expect((JSON.parse(readFileSync(json ?? '', 'utf8')) as RunResult).kind).toBe('lapwright-run');
    expect(readFileSync(again ?? '', 'utf8')).toBe(readFileSync(report ?? '', 'utf8'));
  });

  it('writes over neither the scenario behind a link nor its twin', async () => {
    const original = file('original.yaml', readFileSync(BENCH, 'utf8'));
    const [soft, hard] = ['soft.json', 'hard.json'].map((name) => join(folder, name));
    symlinkSync(original, soft ?? '');
    linkSync(original, hard ?? '');
    for (const path of [soft, hard]) {
      const { code, stderr } = await lapwright('run', original, '-n', '1', '--json', path ?? '');
      expect([code, stderr]).toEqual([2, expect.stringMatching(/would overwrite the scenario file/)]);
    }
    expect(readFileSync(original, 'utf8')).toBe(readFileSync(BENCH, 'utf8'));
  });

  it('still writes the report when nobody reads its output any more', async () => {
    const report = join(folder, 'unread.html');
    const { child, finished } = start(['run', BENCH, '-n', '3', '--report', report]);
    child.stdout?.destroy();
    const { code, stderr } = await finished;
    expect([code, stderr]).toEqual([0, expect.stringMatching(/^Written: .*unread\.html\n$/)]);
    expect(readFileSync(report, 'utf8')).toMatch(/<\/html>\s*$/);
  });

  it('says so when its output cannot be written, with code 1', async () => {
    const full = openSync('/dev/full', 'w');
    const { finished } = start(['run', BENCH, '-n', '3'], { stdout: full });
    const { code, stderr } = await finished;
    closeSync(full);
    expect(code).toBe(1);
    expect(stderr).toMatch(/could not be written/);
    expect(stderr).not.toMatch(STACK);
  });

  it('keeps and prints what was simulated when a file cannot be written, with code 1', async () => {
    // /dev/full takes no byte.
    const { code, stdout, stderr } = await lapwright('run', BENCH, '-n', '3', '--json', '/dev/full');
    expect(code).toBe(1);
    expect(stdout).toMatch(/One module on the bench/);
    expect(stderr).toMatch(/could not be written/);
    expect(stderr).not.toMatch(STACK);
  });

  it('stops within a second of Ctrl-C and gives what is finished, marked partial: the same as a run of so many', async () => {
    const study = ['run', 'scenarios/two-days.yaml', '-n', '100000', '--json'];
    const { child, finished, told } = start(study, { progress: true });
    await told(/[1-9]\d* of 100000 shows simulated/);
    const asked = performance.now();
    child.kill('SIGINT');
    const { code, stdout, stderr } = await finished;
    expect(performance.now() - asked).toBeLessThan(1000);
    expect(code).toBe(130);
    expect(stderr).toMatch(/Stopped: \d+ of 100000 shows were finished/);
    const result = JSON.parse(stdout) as RunResult;
    expect(result.partial).toBe(true);
    expect(result.replications).toBeGreaterThan(0);
    const whole = await lapwright(
      'run',
      'scenarios/two-days.yaml',
      '-n',
      String(result.replications),
      '--json',
    );
    expect({ ...result, partial: false, replications_asked: result.replications }).toEqual(
      JSON.parse(whole.stdout),
    );
  });

  it('says so when nothing was finished', async () => {
    const long = file(
      'long.yaml',
      readFileSync('scenarios/loop50.yaml', 'utf8').replace('lasts: 8 h', 'lasts: 50 d'),
    );
    const { child, finished, told } = start(['run', long, '-n', '2'], { progress: true });
    await told(/0 of 2 shows simulated/);
    child.kill('SIGINT');
    const { code, stdout, stderr } = await finished;
    expect([code, stdout]).toEqual([130, '']);
    expect(stderr).toMatch(/no show was finished/);
  });
});
