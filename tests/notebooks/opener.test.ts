import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import {
  findJupyter,
  INSTALL_LINES,
  jupyterEnvironment,
  PROJECT,
  writeKernelFolder,
} from '../../packages/sim-notebooks/src/jupyter/index.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-opener-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe('finding Jupyter', () => {
  const having = (...there: string[]) =>
    findJupyter(folder, (program, args) => there.includes([program, ...args].join(' ')));

  it('prefers the lab to the classic notebook, and the PATH to Python', () => {
    expect(having('jupyter lab --version', 'jupyter notebook --version')).toEqual(['jupyter', 'lab']);
    expect(having('/usr/bin/jupyter notebook --version', 'python3 -m jupyter notebook --version')).toEqual([
      '/usr/bin/jupyter',
      'notebook',
    ]);
    expect(having('py -m jupyter lab --version')).toEqual(['py', '-m', 'jupyter', 'lab']);
  });

  it('finds none where there is none; then there is a line to type for each system', () => {
    expect(having()).toBeUndefined();
    expect(INSTALL_LINES.join('\n')).toMatch(/Debian[\s\S]*macOS[\s\S]*Windows/);
  });
});

describe('the kernel in a folder of the project', () => {
  it('is started by this Node, whatever is on the PATH', () => {
    writeKernelFolder(folder);
    const spec = JSON.parse(readFileSync(join(folder, 'kernels/tslab/kernel.json'), 'utf8')) as {
      argv: string[];
      language: string;
    };
    expect(spec.language).toBe('typescript');
    expect(spec.argv[0]).toBe(process.execPath);
    expect(existsSync(spec.argv[1] ?? ''), spec.argv[1]).toBe(true);
    expect(spec.argv.at(-1)).toBe('--config-path={connection_file}');
  });

  it('is found first, and all that Jupyter writes stays in the folder', () => {
    const found = jupyterEnvironment(folder, { HOME: '/home/x', JUPYTER_PATH: '/elsewhere' });
    expect(found['JUPYTER_PATH']).toBe([folder, '/elsewhere'].join(delimiter));
    for (const name of ['JUPYTER_CONFIG_DIR', 'JUPYTER_DATA_DIR', 'JUPYTER_RUNTIME_DIR', 'IPYTHONDIR'])
      expect(found[name]?.startsWith(folder), name).toBe(true);
    expect(found['HOME']).toBe('/home/x');
  });
});

it('npm run notebooks -- --check says what would be started, and writes nothing into the home', () => {
  const home = mkdtempSync(join(tmpdir(), 'lapwright-home-'));
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(PROJECT, 'packages/sim-notebooks/bin/notebooks.js'), '--check'],
    { encoding: 'utf8', env: { ...process.env, HOME: home } },
  );
  if (status === 0) expect(stdout).toMatch(/jupyter.* (?:lab|notebook)\n$/);
  else expect(stderr).toContain('Jupyter is not installed. Type the line of your system');
  expect(readdirSync(home)).toEqual([]);
  rmSync(home, { recursive: true });
});
