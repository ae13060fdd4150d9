/*
 * Run before the tests: makes sure there is a browser to look at reports with. On Debian and its relatives it is installed
 * when this runs as root or sudo asks for no password; elsewhere the command to type is printed and the tests go on without
 * the browser ones (in continuous integration that is a failure).
 */
import { spawnSync } from 'node:child_process';
import { findBrowser } from './findBrowser.mjs';

if (!findBrowser()) {
  const has = (command) => spawnSync('sh', ['-c', `command -v ${command}`]).status === 0;
  const root = process.getuid?.() === 0;
  const sudo = !root && has('sudo') && spawnSync('sudo', ['-n', 'true']).status === 0;
  if (has('apt-get') && (root || sudo)) {
    process.stdout.write('Installing Debian’s Chromium for the tests of reports ...\n');
    const run = (...args) =>
      spawnSync(root ? 'apt-get' : 'sudo', root ? args : ['apt-get', ...args], { stdio: 'inherit' });
    run('update', '-qq');
    run('install', '-y', '-qq', 'chromium', 'fonts-liberation');
  }
}

if (!findBrowser()) {
  process.stdout.write(
    [
      'No browser of the Chromium family was found: the tests that open reports in one are left out.',
      '  Debian, Ubuntu: sudo apt-get install chromium      macOS: brew install --cask chromium',
      '  or set CHROMIUM to the path of the program.',
    ].join('\n') + '\n',
  );
  if (process.env['CI']) process.exit(1);
}
