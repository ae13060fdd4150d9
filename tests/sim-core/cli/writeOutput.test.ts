import {
  chmodSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it, vi } from 'vitest';
import { writeOutput } from '../../../packages/sim-core/src/cli/writeOutput.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-outputs-'));
const at = (name: string): string => join(folder, name);
const told = vi.spyOn(process.stderr, 'write').mockImplementation(() => true);

afterAll(() => {
  told.mockRestore();
  rmSync(folder, { recursive: true });
});

it('writes a new file, and over an old one, whose rights stay', async () => {
  expect(await writeOutput(at('a.json'), () => 'one')).toBe(true);
  chmodSync(at('a.json'), 0o640);
  expect(await writeOutput(at('a.json'), () => 'two')).toBe(true);
  expect(readFileSync(at('a.json'), 'utf8')).toBe('two');
  expect(statSync(at('a.json')).mode & 0o777).toBe(0o640);
});

it('writes what a link leads to, and leaves the link', async () => {
  writeFileSync(at('real.html'), 'old');
  symlinkSync('real.html', at('link.html'));
  expect(await writeOutput(at('link.html'), () => 'new')).toBe(true);
  expect(lstatSync(at('link.html')).isSymbolicLink()).toBe(true);
  expect(readFileSync(at('real.html'), 'utf8')).toBe('new');
});

it('leaves the old file as it was when the new one cannot be made or written', async () => {
  writeFileSync(at('kept.json'), 'old');
  const unmade = await writeOutput(at('kept.json'), () => Promise.reject(new Error('no picture')));
  // The name under which it would be written is taken.
  mkdirSync(at(`kept.json.part-${process.pid}`));
  const unwritten = await writeOutput(at('kept.json'), () => 'new');
  expect([unmade, unwritten]).toEqual([false, false]);
  expect(readFileSync(at('kept.json'), 'utf8')).toBe('old');
  expect(told).toHaveBeenCalledWith(expect.stringMatching(/kept\.json could not be written \(no picture\)/));
});

it('leaves nothing half-written behind', () => {
  expect(readdirSync(folder).filter((name) => lstatSync(at(name)).isFile())).toEqual([
    'a.json',
    'kept.json',
    'real.html',
  ]);
});
