import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describeLogProblem, readLog } from '@lapwright/sim-core';
import { CAUTIONS } from '@lapwright/sim-notebooks';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lapwright, start } from '../sim-core/cli/runLapwright.js';

const README = readFileSync('README.md', 'utf8');
const folder = mkdtempSync(join(tmpdir(), 'lapwright-readme-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Code blocks of one language, in order. */
function blocks(language: string): string[] {
  return [...README.matchAll(new RegExp(`^\`\`\`${language}\\n([\\s\\S]*?)^\`\`\``, 'gm'))].map(
    (match) => match[1] ?? '',
  );
}

const run = (args: string[], cwd: string) => start(args, { cwd }).finished;

describe('the README', () => {
  const [scenario = ''] = blocks('yaml');
  const [checked = '', ran = '', mistake = ''] = blocks('text');
  beforeAll(() => writeFileSync(join(folder, 'my-loop.yaml'), scenario));

  it('shows what check and run really print for its scenario', async () => {
    expect((await run(['check', 'my-loop.yaml'], folder)).stdout).toBe(checked);
    expect((await run(['run', 'my-loop.yaml'], folder)).stdout).toBe(ran);
  });

  it('has a program that runs', () => {
    const [program = ''] = blocks('js');
    // Within the project, so that it finds the package.
    const home = join('.artefacts', 'readme');
    mkdirSync(home, { recursive: true });
    writeFileSync(join(home, 'my-loop.yaml'), scenario);
    writeFileSync(join(home, 'program.mjs'), program);
    const { stdout, stderr } = spawnSync(process.execPath, ['program.mjs'], { cwd: home, encoding: 'utf8' });
    expect(stderr).toBe('');
    const [first = '', ...passes] = stdout.trim().split('\n');
    const found = /^(\S+) balls a second, 95 % interval (\S+) to (\S+), 100 shows$/.exec(first) ?? [];
    const shown = /^balls passing the counter +(\S+) bps +(\S+) to (\S+) bps$/m.exec(ran) ?? [];
    expect(found.slice(1).map((value) => Number(value).toFixed(3))).toEqual(shown.slice(1));
    expect(shown).toHaveLength(4);
    expect(passes.map(Number).every((balls) => balls > 0)).toBe(true);
    expect(passes).toHaveLength(3);
  });

  it('tells what really happens with more balls', async () => {
    writeFileSync(join(folder, 'more.yaml'), scenario.replace('charge: 40', 'charge: 200'));
    const { stdout } = await run(['run', 'more.yaml'], folder);
    expect(stdout).toMatch(/Most spills \(balls per hour, 95 % intervals\): crooked-stair/);
  });

  it('shows the message that a mistake really gives', async () => {
    writeFileSync(join(folder, 'my-loop.yaml'), scenario.replace('mean: 0.9 s', 'mean: 0.9'));
    expect((await run(['check', 'my-loop.yaml'], folder)).stderr).toContain(mistake);
  });

  it('shows logs that can be read, and the messages that odd rows really give', () => {
    const texts = blocks('text');
    for (const head of ['# module: lantern-stairs', '# modules: old-mill']) {
      const content = texts.find((text) => text.startsWith(head)) ?? '';
      const log = readLog([{ file: 'log.csv', content }]);
      expect([log.problems, log.used]).toEqual([
        [],
        content
          .trim()
          .split('\n')
          .filter((row) => /^\d/.test(row)).length,
      ]);
    }
    const shown = texts.find((text) => text.startsWith('saturday.csv:')) ?? '';
    const content = [
      '# modules: old-mill, crooked-stair',
      'time,module,what,cause,count,lasted',
      '10:12,crooked-stiar,stop,jam,,',
      '10:13,crooked-stair,cleared,,,',
      '10:40,,counter,,1480,',
      '10:50,,counter,,15200,',
      '11:00,,counter,,3480,',
      '17:00,,end,,,',
    ].join('\n');
    const { problems } = readLog([{ file: 'saturday.csv', content }]);
    expect(`${problems.map(describeLogProblem).join('\n')}\n`).toBe(shown);
  });

  it('gives the two commands first, each in one line with all its set-up', () => {
    const [main = '', tests = ''] = blocks('sh');
    expect(main.trim().split('\n')).toHaveLength(1);
    expect(main).toMatch(/^npm ci && npx lapwright run scenarios\/demo\.yaml/);
    expect(tests.trim()).toBe('npm ci && npm test');
    expect(readFileSync('.ci/run', 'utf8')).toContain(tests.trim());
  });

  it('names every command and option there is', async () => {
    const program = (await lapwright('--help')).stdout;
    const names = [...program.matchAll(/^ {2}([a-z-]+) (?:\[|<)/gm)].map(([, name = '']) => name);
    expect(names).toContain('mend-first');
    for (const name of names.filter((one) => one !== 'help')) {
      expect(README, name).toContain(`npx lapwright ${name}`);
      const { stdout } = await lapwright(name, '--help');
      for (const [option] of stdout.matchAll(/--[a-z][a-z-]*/g))
        if (option !== '--help') expect(README, `${name} ${option}`).toContain(option);
    }
    const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as {
      scripts: Record<string, string>;
    };
    for (const [, name = ''] of README.matchAll(/`npm run (\w+)`/g))
      expect(scripts[name], name).toBeDefined();
  });

  it('shows the cautions that every report shows', () => {
    const flat = README.replaceAll(/\s+/g, ' ');
    for (const caution of CAUTIONS) expect(flat).toContain(caution);
  });

  it('points at files that are there', () => {
    for (const [, target = ''] of README.matchAll(/\]\(([^)#]+)\)/g)) {
      if (!target.startsWith('http')) expect(readFileSync(target).length, target).toBeGreaterThan(0);
    }
    for (const [path] of README.matchAll(/(?:scenarios|packages)\/[\w./-]+\.(?:json|yaml|md|png)/g))
      expect(readFileSync(path).length, path).toBeGreaterThan(0);
  });
});
