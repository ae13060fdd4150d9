import { existsSync } from 'node:fs';
import { join } from 'node:path';

const NAMES = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'chrome',
  'microsoft-edge',
];
const FIXED = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  String.raw`C:\Program Files\Google\Chrome\Application\chrome.exe`,
  String.raw`C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe`,
];

/**
 * Finds a browser of the Chromium family: the one named in CHROMIUM, one on the PATH, or one in its usual place.
 *
 * @returns {string | undefined} path of its program
 */
export function findBrowser() {
  const named = process.env['CHROMIUM'];
  if (named) return named;
  const folders = (process.env['PATH'] ?? '').split(process.platform === 'win32' ? ';' : ':');
  const onPath = NAMES.flatMap((name) => folders.map((folder) => join(folder, name)));
  return [...onPath, ...FIXED].find((path) => existsSync(path));
}
