/*
 * Run before the tests: makes sure of the programs that some tests use, a browser to look at reports with, GNU parallel to
 * spread a study, and Jupyter to open notebooks in. On Debian and its relatives they are installed when this runs as root or sudo asks for no password;
 * elsewhere the command to type is printed and the tests go on without those (in continuous integration that is a failure).
 */
import { spawnSync } from 'node:child_process';
import { findBrowser } from '../browser/findBrowser.mjs';
import { findJupyterForTests } from './findJupyter.mjs';
import { findParallel } from './findParallel.mjs';

const has = (command) => spawnSync('sh', ['-c', `command -v ${command}`]).status === 0;

const NEEDED = [
  {
    name: 'a browser of the Chromium family',
    there: findBrowser,
    debian: ['chromium', 'fonts-liberation'],
    hint: 'macOS: brew install --cask chromium; or set CHROMIUM to the path of the program',
  },
  { name: 'GNU parallel', there: findParallel, debian: ['parallel'], hint: 'macOS: brew install parallel' },
  {
    name: 'Jupyter',
    there: findJupyterForTests,
    debian: ['jupyter-notebook'],
    hint: 'macOS: brew install jupyterlab',
  },
];

const missing = NEEDED.filter(({ there }) => !there());
if (missing.length > 0) {
  const root = process.getuid?.() === 0;
  const sudo = !root && has('sudo') && spawnSync('sudo', ['-n', 'true']).status === 0;
  if (has('apt-get') && (root || sudo)) {
    process.stdout.write(`Installing for the tests: ${missing.map(({ name }) => name).join(', ')} ...\n`);
    const run = (...args) =>
      spawnSync(root ? 'apt-get' : 'sudo', root ? args : ['apt-get', ...args], {
        stdio: 'inherit',
        // Packages that come along must not ask for a time zone.
        env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
      });
    run('update', '-qq');
    run('install', '-y', '-qq', ...missing.flatMap(({ debian }) => debian));
  }
}

const still = missing.filter(({ there }) => !there());
for (const { name, debian, hint } of still) {
  process.stdout.write(
    `There is no ${name.replace(/^a /, '')}: the tests that use it are left out.\n  Debian, Ubuntu: sudo apt-get install ${debian[0]}      ${hint}\n`,
  );
}
if (still.length > 0 && process.env['CI']) process.exit(1);
