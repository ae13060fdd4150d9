import { spawnSync } from 'node:child_process';

/** What to type where we do not install Jupyter ourselves, one line for each kind of system. */
export const INSTALL_LINES: readonly string[] = [
  'Debian, Ubuntu:  sudo apt-get install -y jupyter-notebook',
  'macOS:           brew install jupyterlab',
  'Windows:         py -m pip install --user jupyterlab',
];

/** On Debian and its relatives installs Jupyter when no password is asked for; elsewhere does nothing. */
export function installJupyter(say: (text: string) => void): void {
  const has = (program: string, ...args: string[]): boolean =>
    spawnSync(program, args, { stdio: 'ignore' }).status === 0;
  const root = process.getuid?.() === 0;
  if (!has('apt-get', '--version') || !(root || has('sudo', '-n', 'true'))) return;
  say('Installing Jupyter (apt-get install jupyter-notebook) ...\n');
  const run = (...args: string[]): unknown =>
    spawnSync(root ? 'apt-get' : 'sudo', root ? args : ['apt-get', ...args], {
      stdio: 'inherit',
      // Packages that come along must not ask for a time zone.
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    });
  run('update', '-qq');
  run('install', '-y', '-qq', 'jupyter-notebook');
}
