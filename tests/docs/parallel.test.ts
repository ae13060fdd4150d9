import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { findParallel } from '../programs/findParallel.mjs';
import { start } from '../sim-core/cli/runLapwright.js';

const README = readFileSync('README.md', 'utf8');
const folder = mkdtempSync(join(tmpdir(), 'lapwright-parallel-'));
afterAll(() => rmSync(folder, { recursive: true }));

const [, scenario = ''] = /^```yaml\n([\s\S]*?)^```/m.exec(README) ?? [];
const [commands = ''] = /^parallel [\s\S]*?(?=^```)/m.exec(README) ?? [];

describe.runIf(findParallel())('a study spread with GNU parallel, as the README shows', () => {
  it('gives the same bytes as one in one go', async () => {
    writeFileSync(join(folder, 'my-loop.yaml'), scenario);
    const bin = resolve('packages/sim-core/bin/lapwright.js');
    const typed = commands.replaceAll('npx lapwright', `${process.execPath} ${bin}`);
    const { status, stdout, stderr } = spawnSync('sh', ['-ec', typed], { cwd: folder, encoding: 'utf8' });
    expect([status, stderr]).toEqual([0, expect.stringContaining('Written: all.journal')]);
    const lines = commands.trim().split('\n');
    const args = (lines.at(-1) ?? '')
      .replace('npx lapwright ', '')
      .replace(' --journal all.journal --resume', '')
      .split(' ');
    const whole = await start(args, { cwd: folder }).finished;
    expect(whole.code).toBe(0);
    expect(stdout.endsWith(whole.stdout)).toBe(true);
    // The last command had nothing left to simulate.
    const known = readFileSync(join(folder, 'all.journal'), 'utf8').trim().split('\n').length - 1;
    expect(known).toBe(400);
  }, 60_000);
});
