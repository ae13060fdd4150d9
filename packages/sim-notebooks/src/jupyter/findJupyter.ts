import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';

/** A Jupyter that can be started, such as `['jupyter', 'lab']`. */
export type JupyterCommand = readonly [program: string, ...args: string[]];

/** What finds out whether a command works; another one for tests. */
export type Tries = (program: string, args: readonly string[]) => boolean;

const works: Tries = (program, args) =>
  spawnSync(program, args, { stdio: 'ignore', timeout: 20_000 }).status === 0;

/**
 * Finds a Jupyter: in the project's own `.venv`, on the PATH, in its usual place, or as a module of Python; JupyterLab before
 * the classic notebook.
 */
export function findJupyter(project: string, tries: Tries = works): JupyterCommand | undefined {
  const [bin, suffix] = process.platform === 'win32' ? ['Scripts', '.exe'] : ['bin', ''];
  const own = join(project, '.venv', bin, `jupyter${suffix}`);
  const starts: JupyterCommand[] = [
    ...(existsSync(own) ? ([[own]] as JupyterCommand[]) : []),
    ['jupyter'],
    ['/usr/bin/jupyter'],
    ...['python3', 'python', 'py'].map((python): JupyterCommand => [python, '-m', 'jupyter']),
  ];
  for (const kind of ['lab', 'notebook']) {
    for (const [program, ...args] of starts) {
      if (tries(program, [...args, kind, '--version'])) return [program, ...args, kind];
    }
  }
  return undefined;
}
