import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { InputError, loadScenarioFile, readLog } from '../../../packages/sim-core/src/index.js';
import { knownModules, logReadText, readLogs } from '../../../packages/sim-core/src/cli/readLogs.js';
import { lapwright } from './runLapwright.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-logs-'));
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, content: string): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

describe('log-template', () => {
  it.each(['bench', 'show'])('prints a log of a %s that can be read as it is', async (kind) => {
    const { code, stdout } = await lapwright('log-template', kind);
    expect(code).toBe(0);
    const log = readLog([{ file: 'template.csv', content: stdout }]);
    expect(log.problems).toEqual([]);
    expect(log.used).toBe(log.rows);
    expect(log.files[0]?.where).toBe(kind);
  });

  it('writes a sheet to print', async () => {
    const path = join(folder, 'sheet.html');
    const { code, stderr } = await lapwright('log-template', 'show', '--report', path);
    expect([code, stderr]).toEqual([0, `Written: ${path}\n`]);
    const page = readFileSync(path, 'utf8');
    expect(page.match(/<tr>/g)?.length).toBeGreaterThan(10);
    expect(page).toContain('&#9744;');
  });

  it('refuses another word', async () => {
    const { code, stderr } = await lapwright('log-template', 'table');
    expect([code, stderr]).toEqual([2, expect.stringContaining('bench or show')]);
  });
});

describe('make-log', () => {
  it('gives the example logs again, byte for byte', async () => {
    const bench = await lapwright(
      'make-log',
      'scenarios/bench-one.yaml',
      '--bench',
      'lantern-stairs',
      '--lasts',
      '2h',
      '-s',
      '3',
    );
    expect(bench.stdout).toBe(readFileSync('scenarios/lantern-stairs-bench.csv', 'utf8'));
    const show = await lapwright('make-log', 'scenarios/demo.yaml', '--show', '--levels');
    expect(show.stdout).toBe(readFileSync('scenarios/demo-weekend.csv', 'utf8'));
  });

  it('says what is wrong', async () => {
    const none = await lapwright('make-log', 'scenarios/bench-one.yaml');
    expect([none.code, none.stderr]).toEqual([2, expect.stringContaining('--bench, --show')]);
    const unknown = await lapwright('make-log', 'scenarios/bench-one.yaml', '--bench', 'lantern-stair');
    expect([unknown.code, unknown.stderr]).toEqual([
      2,
      expect.stringContaining('Did you mean lantern-stairs?'),
    ]);
  });
});

describe('readLogs', () => {
  const demo = loadScenarioFile('scenarios/demo.yaml');

  it('reads the example logs, every row', () => {
    const log = readLogs(['scenarios/lantern-stairs-bench.csv']);
    expect([log.used, log.records.length]).toEqual([log.rows, 1]);
    const weekend = readLogs(['scenarios/demo-weekend.csv'], knownModules(demo));
    expect(weekend.used).toBe(weekend.rows);
    // Fifty in the loop, and the spares that were put in.
    expect(weekend.records.length).toBeGreaterThan(50);
    expect(logReadText(weekend)).toContain(`All ${weekend.rows} rows count.`);
  });

  it('tells of rows that do not count', () => {
    const path = file(
      'short.csv',
      'time,module,what\n10:00,gate-house,stop\n10:01,gatehouse,stop\n10:02,gatehouse,cleared\n10:03,,end\n',
    );
    const text = logReadText(readLogs([path], knownModules(demo)));
    expect(text.replaceAll('\n', ' ')).toContain('3 of 4 rows count, 1 is left out.');
    expect(text).toContain(
      `${path}:2: left out: found "10:00,gate-house,stop": there is no module "gate-house". Did you mean gatehouse?`,
    );
  });

  it('names every file that cannot be read', () => {
    const problemsOf = (paths: readonly string[]): readonly string[] => {
      try {
        readLogs(paths);
      } catch (error) {
        if (error instanceof InputError) return error.message.split('\n');
        throw error;
      }
      return [];
    };
    expect(problemsOf(['scenarios', join(folder, 'none.csv')])).toEqual([
      'scenarios: this is a folder, not a file. Name the log in it.',
      `${join(folder, 'none.csv')}: there is no such file. Name the log you kept; lapwright log-template prints one to begin with.`,
    ]);
    const path = file('odd.csv', '10:00,a,stop\n');
    expect(problemsOf([path])).toEqual([
      expect.stringContaining(
        `${path}:1: found "10:00,a,stop": the rows cannot be read without their columns.`,
      ),
    ]);
  });
});
