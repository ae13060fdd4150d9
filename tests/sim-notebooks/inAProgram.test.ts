import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-program-'));

afterAll(() => rmSync(folder, { recursive: true }));

const LOOP = JSON.stringify(
  '{ name: bench, show: { lasts: 5 min }, feed: { steady: 0.9 bps }, modules: { mill: { basket: 40, cycle: 1 s, travel: 2 s } } }\n',
);

// Node ends, with exit code 13, a program that waits for something when nothing is left to keep it.
it('verbs keep a program of its own until they have their answer', () => {
  const file = join(folder, 'program.mjs');
  writeFileSync(
    file,
    `import { load, replay, run, sideBySide, enough } from ${JSON.stringify(import.meta.resolve('@lapwright/sim-notebooks'))};
const loop = load(${LOOP});
const few = { replications: 2, workers: 1 };
const ran = await run(loop, few);
await replay(loop, { ...few, worst: 'spills' });
await sideBySide({ one: loop, other: loop.set('modules.mill.cycle', '0.8 s') }, few);
await enough(loop, { workers: 1 });
process.stderr.write('shows: ' + ran.result.replications);
`,
  );
  const { stderr, status } = spawnSync(process.execPath, [file], { encoding: 'utf8' });
  expect({ stderr, status }).toEqual({ stderr: 'shows: 2', status: 0 });
});
