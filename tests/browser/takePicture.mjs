/*
 * npm run picture: takes the pictures that the README shows, of the report of a run and of a replay of the demo.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { findBrowser } from './findBrowser.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'lapwright-picture-'));
const bin = join(root, 'packages/sim-core/bin/lapwright.js');
const browser = await chromium.launch({
  executablePath: findBrowser(),
  args: ['--no-sandbox', '--disable-gpu'],
});

/** Opens the report that a command writes. */
async function open(...command) {
  const report = join(folder, `${command[0]}.html`);
  const run = spawnSync(process.execPath, [bin, ...command, '--report', report], {
    cwd: root,
    stdio: 'inherit',
  });
  if (run.status !== 0) process.exit(1);
  const page = await browser.newPage({ viewport: { width: 1000, height: 1240 } });
  await page.goto(pathToFileURL(report).href);
  return page;
}

const path = (name) => join(root, 'packages/sim-notebooks/pictures', name);
const run = await open('run', 'scenarios/demo.yaml');
await run.screenshot({ path: path('demo-report.png') });
const replay = await open('replay', 'scenarios/demo.yaml', '--worst', 'spills');
const { bottom } = await replay.evaluate(() => {
  const { bottom: end } = document.querySelector('#timeline').getBoundingClientRect();
  return { bottom: Math.ceil(end) + 20 };
});
await replay.screenshot({
  path: path('replay.png'),
  fullPage: true,
  clip: { x: 0, y: 0, width: 1000, height: bottom },
});
await browser.close();
rmSync(folder, { recursive: true });
