import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { findJupyter } from './findJupyter.js';
import { INSTALL_LINES, installJupyter } from './installJupyter.js';
import { jupyterEnvironment, NOTEBOOKS, PROJECT, writeKernelFolder } from './kernelFolder.js';

/**
 * Opens the notebooks in Jupyter, in the browser; ends when Jupyter ends. Whatever Jupyter writes goes into `.jupyter` in the
 * project.
 *
 * @param args `--check` only says what would be started; everything else is passed on to Jupyter
 * @returns exit code: 1 when there is no Jupyter and none could be installed
 */
export async function openNotebooks(args: readonly string[]): Promise<number> {
  const folder = join(PROJECT, '.jupyter');
  writeKernelFolder(folder);
  const checking = args.includes('--check');
  let command = findJupyter(PROJECT);
  if (command === undefined && !checking) {
    installJupyter((text) => process.stdout.write(text));
    command = findJupyter(PROJECT);
  }
  if (command === undefined) {
    process.stderr.write(
      `Jupyter is not installed. Type the line of your system, then npm run notebooks again:\n${INSTALL_LINES.map((line) => `  ${line}\n`).join('')}`,
    );
    return 1;
  }
  const [program, ...start] = command;
  // Jupyter refuses to be started by root unless it is told that this is meant.
  const all = [...start, ...(process.getuid?.() === 0 ? ['--allow-root'] : []), ...args];
  if (checking) {
    process.stdout.write(`${[program, ...start].join(' ')}\n`);
    return 0;
  }
  const child = spawn(program, all, { cwd: NOTEBOOKS, env: jupyterEnvironment(folder), stdio: 'inherit' });
  // Jupyter asks itself what Ctrl-C means; it gets the same one from the terminal.
  const wait = (): void => undefined;
  const end = (): boolean => child.kill('SIGTERM');
  process.on('SIGINT', wait);
  process.on('SIGTERM', end);
  return new Promise((resolve) => {
    child.on('error', (error) => {
      process.stderr.write(`${program} cannot be started: ${error.message}\n`);
      resolve(1);
    });
    child.on('exit', (code) => resolve(code ?? 0));
  });
}
