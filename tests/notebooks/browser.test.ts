import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PROJECT } from '../../packages/sim-notebooks/src/jupyter/kernelFolder.js';
import { findBrowser } from '../browser/findBrowser.mjs';
import { findJupyterForTests } from '../programs/findJupyter.mjs';
import { readNotebook } from './notebookFile.js';

/*
 * A notebook in Jupyter itself, opened as the README says, in a browser: all cells run by the keyboard, and every chart seen.
 */

const NOTEBOOK = '1-a-first-loop.ipynb';
const OPENER = join(PROJECT, 'packages/sim-notebooks/bin/notebooks.js');
/** Inside the project, so that a notebook in it finds the packages; left there to be looked at. */
const FOLDER = join(PROJECT, '.artefacts', 'notebooks');
const LIMIT = 300_000;

const program = findBrowser();

// Without these programs ensurePrograms has said so; in continuous integration it has failed.
describe.runIf(program !== undefined && findJupyterForTests())('Jupyter, opened with one command', () => {
  let server: ChildProcess;
  let browser: Browser;
  let url = '';

  beforeAll(async () => {
    rmSync(FOLDER, { recursive: true, force: true });
    mkdirSync(FOLDER, { recursive: true });
    const { cells, ...rest } = readNotebook(NOTEBOOK);
    // What is seen is what the browser run has made, not what was saved.
    const empty = cells.map((cell) => (cell.cell_type === 'code' ? { ...cell, outputs: [] } : cell));
    writeFileSync(
      join(FOLDER, NOTEBOOK),
      JSON.stringify({ cells: empty, ...rest, nbformat: 4, nbformat_minor: 5 }),
    );
    const port = await new Promise<number>((resolve) => {
      const probe = createServer();
      probe.listen(0, '127.0.0.1', () => {
        const address = probe.address();
        probe.close(() => resolve(typeof address === 'object' && address ? address.port : 0));
      });
    });
    server = spawn(
      process.execPath,
      [
        OPENER,
        '--no-browser',
        '--ip=127.0.0.1',
        `--port=${port}`,
        `--notebook-dir=${FOLDER}`,
        '--NotebookApp.token=tests',
        '--ServerApp.token=tests',
      ],
      { stdio: ['ignore', 'pipe', 'pipe'] },
    );
    url = `http://127.0.0.1:${port}`;
    const given = Date.now() + 90_000;
    for (;;) {
      const answers = await fetch(`${url}/api?token=tests`).then(
        (response) => response.ok,
        () => false,
      );
      if (answers) break;
      if (Date.now() > given || server.exitCode !== null) throw new Error('Jupyter does not answer');
      await new Promise((resolve) => setTimeout(resolve, 250));
    }
    browser = await chromium.launch({
      executablePath: program ?? '',
      args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-sync'],
    });
  }, 120_000);

  afterAll(async () => {
    await browser?.close();
    const ended = new Promise((resolve) => server.on('exit', resolve));
    server.kill('SIGTERM');
    await ended;
  });

  it(
    'runs all cells of a notebook by the keyboard and draws every chart, on light and on dark paper',
    async () => {
      const lab = spawnSync(process.execPath, [OPENER, '--check'], { encoding: 'utf8' }).stdout.includes(
        'lab',
      );
      const page = await browser.newPage({ viewport: { width: 1200, height: 1000 } });
      const requests: string[] = [];
      page.on('request', (request) => requests.push(request.url()));
      await page.goto(`${url}/${lab ? 'lab/tree' : 'notebooks'}/${NOTEBOOK}?token=tests`);
      const first = page.locator('.cell, .jp-Notebook .jp-Cell').first();
      await first.waitFor({ timeout: 60_000 });
      // The kernel must be there before a cell is run.
      await page
        .locator('.kernel_idle_icon, .jp-Notebook-ExecutionIndicator[data-status="idle"]')
        .first()
        .waitFor({ timeout: 90_000 });
      await first.click();
      await page.keyboard.press('Escape');
      const { cells } = readNotebook(NOTEBOOK);
      for (const _ of cells) {
        await page.keyboard.press('Shift+Enter');
        await page.waitForTimeout(100);
      }
      const drawings = JSON.stringify(cells).split('data:image/svg+xml').length - 1;
      expect(drawings).toBeGreaterThan(5);
      const images = page.locator('img[src^="data:image/svg+xml"]');
      await expect.poll(() => images.count(), { timeout: 240_000, interval: 500 }).toBe(drawings);
      for (const dark of [false, true]) {
        await page.evaluate((night) => {
          if (night)
            document.head.insertAdjacentHTML(
              'beforeend',
              '<style>body, #notebook, #notebook-container, .cell, .output_area, .jp-Notebook { background: #111 !important } .rendered_html, .rendered_html * { color: #eee !important }</style>',
            );
        }, dark);
        const seen = await images.evaluateAll((all) =>
          all.map((image) => {
            const picture = image as HTMLImageElement;
            const canvas = document.createElement('canvas');
            canvas.width = picture.naturalWidth;
            canvas.height = picture.naturalHeight;
            const context = canvas.getContext('2d');
            context?.drawImage(picture, 0, 0);
            const dots = context?.getImageData(0, 0, canvas.width, canvas.height).data ?? [];
            const colours = new Set<number>();
            let clear = 0;
            for (let i = 0; i < dots.length; i += 4) {
              colours.add(((dots[i] ?? 0) << 16) | ((dots[i + 1] ?? 0) << 8) | (dots[i + 2] ?? 0));
              if ((dots[i + 3] ?? 0) < 255) clear++;
            }
            return {
              alt: picture.alt,
              width: picture.naturalWidth,
              shown: picture.getBoundingClientRect().width,
              colours: colours.size,
              clear,
            };
          }),
        );
        for (const { alt, width, shown, colours, clear } of seen) {
          expect(width, alt).toBeGreaterThan(300);
          expect(shown, alt).toBeGreaterThan(300);
          expect(colours, alt).toBeGreaterThan(10);
          // Its own white paper covers all of it: nothing of a dark page shows through.
          expect(clear, alt).toBe(0);
          expect(alt.length).toBeGreaterThan(30);
        }
        await page.screenshot({ path: join(FOLDER, dark ? 'dark.png' : 'light.png') });
      }
      const text = await page.locator('body').innerText();
      expect(text).toContain('The loop passes');
      expect(text).not.toMatch(/^\s*at .*\.js:\d+/m);
      expect(
        requests.filter((one) => !/^(?:data:|blob:|https?:\/\/127\.0\.0\.1|ws:\/\/127\.0\.0\.1)/.test(one)),
      ).toEqual([]);
      const heights = await images.evaluateAll((all) =>
        all.map((image) => image.getBoundingClientRect().top),
      );
      for (const [i] of heights.entries()) {
        await images.nth(i).scrollIntoViewIfNeeded();
        await page.screenshot({ path: join(FOLDER, `picture-${i + 1}.png`) });
      }
    },
    LIMIT,
  );
});
