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

beforeAll(() => mkdirSync(FOLDER, { recursive: true }));
afterAll(() => rmSync(FOLDER, { recursive: true }));

function compile(code: string): string {
  const file = join(FOLDER, 'cell.ts');
  writeFileSync(file, code);
  const options =
    '--noEmit --strict --target es2022 --lib es2023 --module esnext --moduleResolution node --types node --skipLibCheck false'.split(
      ' ',
    );
  return spawnSync(process.execPath, [compiler, ...options, file], { encoding: 'utf8', cwd: FOLDER }).stdout;
}

/** Complaints about our own declarations and the code; those of other packages are not ours. */
const ours = (said: string): string[] => said.split('\n').filter((line) => /packages\/|cell\.ts/.test(line));

describe('the declarations', () => {
  it('can be read by the compiler of the kernel, all of them', () => {
    const code = `import * as core from '@lapwright/sim-core';
import * as notebooks from '@lapwright/sim-notebooks';
export const both = [core, notebooks];`;
    expect(ours(compile(code))).toEqual([]);
  }, 120_000);

  it('are not any: what is wrong is refused', () => {
    const said = compile(`import { load, run, type Run } from '@lapwright/sim-notebooks';
const done: Promise<Run> = run(load('a.yaml'), { replications: 3 });
export const mean: number | null = (await done).result.throughput_bps.mean;
export const wrong: string = (await done).result.throughput_bps.mean;
load(5);`);
    expect(ours(said).map((line) => /error TS\d+: .*/.exec(line)?.[0])).toEqual([
      expect.stringContaining("Type 'number | null' is not assignable to type 'string'"),
      expect.stringContaining("Argument of type 'number' is not assignable to parameter of type 'string'"),
    ]);
  }, 120_000);
});
