import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PROJECT } from '../../packages/sim-notebooks/src/jupyter/kernelFolder.js';

/*
 * The declarations of both packages as a cell sees them: by the compiler inside tslab, older than ours, with its way of
 * finding packages.
 */
const FOLDER = join(PROJECT, '.artefacts', 'declarations');
const compiler = join(
  dirname(createRequire(import.meta.url).resolve('@tslab/typescript-for-tslab/package.json')),
  'lib/tsc.js',
);

/** All there is, and a cell in which something is wrong, compiled in one go: most of it is to read the declarations. */
const EVERYTHING = `import * as core from '@lapwright/sim-core';
import * as notebooks from '@lapwright/sim-notebooks';
export const both = [core, notebooks];`;
const CELL = `import { load, run, type Run } from '@lapwright/sim-notebooks';
const done: Promise<Run> = run(load('a.yaml'), { replications: 3 });
export const mean: number | null = (await done).result.throughput_bps.mean;
export const wrong: string = (await done).result.throughput_bps.mean;
load(5);`;

let said: readonly string[] = [];
beforeAll(() => {
  mkdirSync(FOLDER, { recursive: true });
  const files = Object.entries({ 'everything.ts': EVERYTHING, 'cell.ts': CELL }).map(([name, code]) => {
    writeFileSync(join(FOLDER, name), code);
    return join(FOLDER, name);
  });
  const options =
    '--noEmit --strict --target es2022 --lib es2023 --module esnext --moduleResolution node --types node --skipLibCheck false'.split(
      ' ',
    );
  const { stdout } = spawnSync(process.execPath, [compiler, ...options, ...files], {
    encoding: 'utf8',
    cwd: FOLDER,
  });
  said = stdout.split('\n');
});
afterAll(() => rmSync(FOLDER, { recursive: true }));

describe('the declarations', () => {
  it('can be read by the compiler of the kernel, all of them', () => {
    // Complaints about the declarations of other packages are not ours.
    expect(said.filter((line) => /packages\/|everything\.ts/.test(line))).toEqual([]);
  });

  it('are not any: what is wrong is refused', () => {
    const refused = said.filter((line) => line.includes('cell.ts'));
    expect(refused.map((line) => /error TS\d+: .*/.exec(line)?.[0])).toEqual([
      expect.stringContaining("Type 'number | null' is not assignable to type 'string'"),
      expect.stringContaining("Argument of type 'number' is not assignable to parameter of type 'string'"),
    ]);
  });
});
