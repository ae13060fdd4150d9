/*
 * npm run picture: takes the picture of the demo report that the README shows.
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
const report = join(folder, 'report.html');
const bin = join(root, 'packages/sim-core/bin/lapwright.js');
const run = spawnSync(process.execPath, [bin, 'run', 'scenarios/demo.yaml', '--report', report], {
  cwd: root,
  stdio: 'inherit',
});
if (run.status !== 0) process.exit(1);
const browser = await chromium.launch({
  executablePath: findBrowser(),
  args: ['--no-sandbox', '--disable-gpu'],
});
const page = await browser.newPage({ viewport: { width: 1000, height: 1240 } });
await page.goto(pathToFileURL(report).href);
await page.screenshot({ path: join(root, 'packages/sim-notebooks/pictures/demo-report.png') });
await browser.close();
rmSync(folder, { recursive: true });
