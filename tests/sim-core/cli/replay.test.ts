import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
// The built package: the command and its worker threads run files of dist.
import { loadScenarioFile, type ReplicationResult, simulate } from '@lapwright/sim-core';
import { afterAll, describe, expect, it } from 'vitest';
import { lapwright, start } from './runLapwright.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-replay-'));
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, content: string): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

/** Eight hours of a small loop that stops, spills, leaks and loses balls by chance. */
const LOOP = file(
  'loop.yaml',
  `name: A loop of four
show: { opens: 10:00, lasts: 8 h }
charge: 60
crew: { minders: 1, notice: 15 s, walk: 20 s, sweep: { every: 10 min, into: gate, takes: 30 s, lost: 2 % } }
templates:
  lift:
    basket: 20
    cycle: { lognormal: { mean: 0.9 s, cv: 0.1 } }
    travel: 4 s
    leak: 0.0003
    stops:
      jam: { running: { exponential: { mean: 25 min } }, drops: 30 %, crew: { clear: { exponential: { mean: 60 s } } } }
modules: { gate: { like: lift }, stile: { like: lift }, mill: { like: lift }, jug: { like: lift } }
`,
);
const FIVE = 'scenarios/chain-of-five.yaml';
const STACK = /\n\s+at .*:\d+:\d+/;
const sum = (values: Iterable<number>): number => [...values].reduce((total, value) => total + value, 0);
const spilled = ({ modules }: ReplicationResult): number =>
  sum([...modules.spillsWhileStopped, ...modules.spillsOnBacklog, ...modules.spillsOnInflow]);

/** What a run simulates for the first shows of the loop, seed 1. */
const loop = loadScenarioFile(LOOP).spec;
const RUN = Array.from({ length: 6 }, (_, replication) => simulate(loop, { seed: 1, replication }));

/** The lines of a CSV log as cells; no cell of these scenarios has a comma. */
function rows(csv: string): string[][] {
  return csv
    .trimEnd()
    .split('\r\n')
    .slice(1)
    .map((line) => line.split(','));
}

const ballsOf = (csv: string, what: string): number =>
  sum(rows(csv).map((cells) => (cells[3] === what ? Number(cells[6]) : 0)));

describe('lapwright replay', () => {
  it('tells the planned stop of the teaching chain as the file describes it', async () => {
    const { code, stdout, stderr } = await lapwright('replay', FIVE, '--replication', '0');
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/^Chain of five: show 0, seed 1, 10:00 to 11:00\n\n/);
    // Twenty minutes after the opening, for two minutes.
    expect(stdout).toMatch(/^10:20:00 {2}third stops \(lesson\)$/m);
    expect(stdout).toMatch(/^10:22:00 {2}third has freed itself after 2 min$/m);
    expect(stdout).toMatch(/^10:2[2-9]:\d\d {2}\d+ balls spill at (fourth|fifth)/m);
    expect(stdout).toMatch(/In this show: 1 stop, the longest 2 min at third; \d+ balls spilled/);
    expect(stdout.split('\n').every((line) => line.length <= 80)).toBe(true);
  });

  it('calls a calm stretch calm', async () => {
    const { stdout } = await lapwright('replay', FIVE, '-r', '0', '--from', '10:05', '--to', '10:15');
    expect(stdout).toBe(
      'Chain of five: show 0, seed 1, 10:05 to 10:15\n\nA calm stretch of 10 min: nothing stopped and no ball fell.\n',
    );
  });

  it('shows the replication that a run simulates, figure for figure', async () => {
    for (const replication of [0, 4]) {
      const { stdout } = await lapwright('replay', LOOP, '-r', String(replication), '--csv');
      const result = RUN[replication];
      expect(result).toBeDefined();
      if (result === undefined) continue;
      expect(ballsOf(stdout, 'spills')).toBe(spilled(result));
      expect(ballsOf(stdout, 'leaks')).toBe(sum(result.modules.leaks));
      expect(ballsOf(stdout, 'lost')).toBe(result.lost);
      expect(rows(stdout).filter(([, , , what]) => what === 'stops')).toHaveLength(sum(result.modules.stops));
    }
  });

  it('finds the worst of many shows with any number of workers, and tells its worst hour', async () => {
    const figures = RUN.map(spilled);
    const most = Math.max(...figures);
    const [one, two] = await Promise.all(
      ['1', '2'].map((workers) =>
        lapwright('replay', LOOP, '--worst', 'spills', '-n', '6', '--workers', workers),
      ),
    );
    expect(one?.code).toBe(0);
    expect(two?.stdout).toBe(one?.stdout);
    const flat = (one?.stdout ?? '').replaceAll(/\s+/g, ' ');
    expect(flat).toContain(
      `Of shows 0 to 5, show ${figures.indexOf(most)} spilled most balls: ${most}, against `,
    );
    const mean = Number(/against ([\d.]+) on average/.exec(flat)?.[1]);
    expect(Math.abs(mean - sum(figures) / 6)).toBeLessThan(0.01 * mean);
    expect(flat).toMatch(/seed 1, (\d\d):00 to \d\d:00 Of shows/);
    expect(flat).toMatch(/In this hour: /);
    // No full hour of that show spilled more.
    const told = Number(/(\d+) balls spilled/.exec(flat)?.[1]);
    const { stdout } = await lapwright('replay', LOOP, '-r', String(figures.indexOf(most)), '--csv');
    const hours = [0, 1, 2, 3, 4, 5, 6, 7].map((hour) =>
      sum(
        rows(stdout).map(([time, , , what, , , balls]) =>
          what === 'spills' && Math.floor(Number(time) / 3600) === hour ? Number(balls) : 0,
        ),
      ),
    );
    expect(told).toBe(Math.max(...hours));
  });

  it('chooses by other figures too, spills if none is named', async () => {
    const stops = RUN.map(({ modules }) => sum(modules.stops));
    const { stdout } = await lapwright('replay', LOOP, '--worst', 'stops', '-n', '6');
    expect(stdout).toContain(`show ${stops.indexOf(Math.max(...stops))} had most stops`);
    expect((await lapwright('replay', LOOP, '-n', '2')).stdout).toMatch(/spilled most balls/);
    for (const figure of ['lost', 'longest-stop', 'laps', 'moving'])
      expect((await lapwright('replay', LOOP, '--worst', figure, '-n', '2')).code, figure).toBe(0);
  });

  it('says so when all shows are alike', async () => {
    const still = file(
      'still.yaml',
      'name: still\nshow: { lasts: 1 h }\ncharge: 5\nmodules: { a: { basket: 9, cycle: 1 s, travel: 2 s } }\n',
    );
    const { stdout } = await lapwright('replay', still, '-n', '3');
    expect(stdout.replaceAll(/\s+/g, ' ')).toMatch(
      /show 0, seed 1, all 1 h In each of shows 0 to 2 the same: balls spilled, 0\. The first is replayed\. .*A calm show/,
    );
  });

  it('writes CSV, JSON and a report, the same bytes again, and only a summary to the screen', async () => {
    const paths = ['a.csv', 'a.json', 'a.html'].map((name) => join(folder, name));
    const outputs = ['--csv', paths[0] ?? '', '--json', paths[1] ?? '', '--report', paths[2] ?? ''];
    const args = ['replay', FIVE, '-r', '3', ...outputs];
    const first = await lapwright(...args);
    expect(first.code).toBe(0);
    expect(first.stderr.match(/^Written: /gm)).toHaveLength(3);
    expect(first.stdout).not.toMatch(/10:20:00/);
    expect(first.stdout).toMatch(/In this show: 1 stop/);
    const bytes = (): string[] => paths.map((path) => readFileSync(path, 'utf8'));
    const before = bytes();
    expect((await lapwright(...args)).code).toBe(0);
    expect(bytes()).toEqual(before);
    const json = JSON.parse(before[1] ?? '') as { kind: string; log: { kind: string; module: string }[] };
    expect(json.kind).toBe('lapwright-replay');
    expect(json.log.find(({ kind }) => kind === 'stops')).toMatchObject({ module: 'third', time_s: 1200 });
    expect(before[2]).toMatch(/^<!doctype html>[\s\S]*third stops \(lesson\)[\s\S]*<\/html>\s*$/);
  });

  it('gives the same window again with the command in the report', async () => {
    const report = join(folder, 'again.html');
    const first = await lapwright('replay', LOOP, '-n', '2', '--report', report);
    const command = /<code>npx lapwright ([^<]*)<\/code>/.exec(readFileSync(report, 'utf8'))?.[1] ?? '';
    const again = await lapwright(...command.split(' '));
    expect(again.code).toBe(0);
    const figures = /In this hour:[\s\S]*/;
    expect(figures.exec(again.stdout)?.[0]).toBe(figures.exec(first.stdout)?.[0]);
  });

  it.each<[string, string[], RegExp]>([
    ['a number that is none', ['-r', 'x'], /whole number from 0 to 999999/],
    ['a number too large', ['-r', '1000000'], /whole number from 0 to 999999/],
    [
      'a number that such a run has not',
      ['-r', '7', '-n', '5'],
      /--replication: found 7, but this must be below 5: a run of 5 has shows 0 to 4/,
    ],
    [
      'a figure that is none',
      ['--worst', 'noise'],
      /spills or stops or lost or longest-stop or laps or moving/,
    ],
    ['both a number and the worst', ['-r', '1', '--worst', 'spills'], /cannot be used with/],
    ['a moment that is none', ['-r', '1', '--from', 'noon'], /--from: found "noon".*such as 11:30/],
    ['a moment after the show', ['-r', '1', '--to', '18:30'], /18:30 is not in the show/],
    ['an empty window', ['-r', '1', '--from', '12:00', '--to', '11:00'], /no public time/],
    ['two tables on one screen', ['-r', '1', '--csv', '--json'], /both would be printed/],
    ['a log that is no table', ['-r', '1', '--csv', 'log.txt'], /name that ends in \.csv/],
    ['a log in no folder', ['-r', '1', '--csv', 'nowhere/log.csv'], /there is no folder nowhere/],
    ['a report that is no page', ['-r', '1', '--report', 'r.pdf'], /name that ends in \.html/],
  ])('refuses %s with code 2 and no stack trace', async (_, args, message) => {
    const { code, stdout, stderr } = await lapwright('replay', LOOP, ...args);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(message);
    expect(stderr).not.toMatch(STACK);
  });

  it('writes over its own table, not over that of somebody else', async () => {
    const foreign = file('foreign.csv', 'name,price\nbasket,3\n');
    const refused = await lapwright('replay', FIVE, '-r', '0', '--csv', foreign);
    expect([refused.code, refused.stderr]).toEqual([2, expect.stringMatching(/another kind/)]);
    expect(readFileSync(foreign, 'utf8')).toBe('name,price\nbasket,3\n');
  });

  it('says so when a file cannot be written, with code 1', async () => {
    const { code, stdout, stderr } = await lapwright('replay', FIVE, '-r', '0', '--json', '/dev/full');
    expect(code).toBe(1);
    expect(stdout).toMatch(/In this show/);
    expect(stderr).toMatch(/could not be written/);
    expect(stderr).not.toMatch(STACK);
  });

  it('tells the worst of what was finished when stopped with Ctrl-C', async () => {
    const { child, finished, told } = start(['replay', LOOP, '-n', '100000'], { progress: true });
    await told(/[1-9]\d* of 100000 shows simulated/);
    child.kill('SIGINT');
    const { code, stdout, stderr } = await finished;
    expect(code).toBe(130);
    const done = Number(/Stopped: (\d+) of 100000 shows were finished/.exec(stderr)?.[1]);
    expect(stdout).toMatch(new RegExp(`Of shows 0 to ${done - 1}, show \\d+ spilled most balls`));
    expect(stdout).toMatch(/In this hour/);
  });
});
