import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  floodCard,
  floodCardAnswer,
  loadScenarioFile,
  parseScenario,
  type Scenario,
  Study,
  toAnswer,
} from '@lapwright/sim-core';
import { CAUTIONS, floodCardPage, SHORT_CAUTIONS } from '@lapwright/sim-notebooks';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findBrowser } from '../browser/findBrowser.mjs';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-card-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function pageOf(scenario: Scenario): Promise<string> {
  const study = new Study({ seed: 1, workers: 2 });
  try {
    const card = await floodCard(study, scenario.spec, { replications: 2, moments: 2 });
    const { file, sha256 } = scenario.source;
    const answer = toAnswer(floodCardAnswer(scenario.name, card), {
      seed: 1,
      scenarios: [{ name: scenario.name, file, sha256, changes: [] }],
      shows: 2,
    });
    return floodCardPage({ card, answer, command: `npx lapwright flood-card ${file}` });
  } finally {
    await study.close();
  }
}

const HOSTILE = parseScenario(
  `name: '<script>alert(1)</script>'
show: { lasts: 20 min }
feed: { steady: 1 bps }
modules:
  a: { title: '<b onmouseover=alert(3)>', builder: "O'<i>", basket: 5, cycle: 1.1 s, travel: 2 s }
  a-module-with-a-name-as-long-as-allowed: { basket: unlimited, cycle: 0.5 s, travel: 2 s }
`,
  '<svg onload=alert(4)>.yaml',
);

describe('a flood card to print', () => {
  let browser: Browser;
  const pages = new Map<string, string>();
  beforeAll(async () => {
    browser = await chromium.launch({
      executablePath: findBrowser() ?? '',
      args: [
        '--no-sandbox',
        '--disable-gpu',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
      ],
    });
    pages.set('demo', await pageOf(loadScenarioFile('scenarios/demo.yaml')));
    pages.set('hostile', await pageOf(HOSTILE));
    for (const [name, html] of pages) writeFileSync(join(folder, `${name}.html`), html);
  });
  afterAll(() => browser.close());

  it.each(['A4', 'Letter'])('is one page of %s for the fifty modules of the demo', async (format) => {
    const page = await browser.newPage();
    await page.goto(pathToFileURL(join(folder, 'demo.html')).href);
    const pdf = (await page.pdf({ format })).toString('latin1');
    await page.close();
    expect(pdf.match(/\/Type\s*\/Page(?!s)/g)).toHaveLength(1);
  });

  it('shows every module in the order of the loop, with its builder, and cuts nothing off', async () => {
    const page = await browser.newPage({ viewport: { width: 720, height: 1000 } });
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await page.emulateMedia({ media: 'print' });
    await page.goto(pathToFileURL(join(folder, 'demo.html')).href);
    const rows = await page
      .locator('tbody tr')
      .evaluateAll((all) =>
        all.map((row) => [...row.children].map((cell) => (cell as { textContent: string }).textContent)),
      );
    const { spec } = loadScenarioFile('scenarios/demo.yaml');
    expect(rows).toHaveLength(50);
    for (const [m, { id, builder }] of spec.modules.entries()) {
      expect(rows[m]?.[1]).toContain(id);
      expect(rows[m]?.[2]).toBe(builder);
      expect(rows[m]?.[3]).toMatch(/^(■ )?\d+:\d\d$/);
      expect(rows[m]?.[4]).toMatch(/^((\d+:\d\d|up) to (\d+:\d\d|later)|reckoned)$/);
    }
    const width = await page.evaluate('document.documentElement.scrollWidth');
    expect(width).toBeLessThanOrEqual(720);
    expect(asked).toHaveLength(1);
    await page.close();
  });

  it('takes names for text', async () => {
    const page = await browser.newPage();
    const problems: string[] = [];
    page.on('dialog', (dialog) => {
      problems.push(dialog.message());
      void dialog.dismiss();
    });
    page.on('pageerror', (error) => problems.push(String(error)));
    await page.goto(pathToFileURL(join(folder, 'hostile.html')).href);
    expect(await page.locator('script, svg, i, [onmouseover]').count()).toBe(0);
    expect(await page.textContent('h1')).toContain('<script>alert(1)</script>');
    expect(await page.textContent('tbody')).toMatch(/over \d+ min.*no hurry/);
    expect(problems).toEqual([]);
    await page.close();
  });

  it('is the same text every time', async () => {
    expect(await pageOf(HOSTILE)).toBe(pages.get('hostile'));
  });
});

describe('the cautions in short', () => {
  it('are one for one those of every report', () => {
    expect(SHORT_CAUTIONS).toHaveLength(CAUTIONS.length);
    // Each shares its leading word of warning with the long one.
    const words = ['roll', 'child', 'mains', 'lift', 'switch', 'venue'];
    for (const [i, word] of words.entries())
      for (const list of [CAUTIONS, SHORT_CAUTIONS]) expect(list[i]?.toLowerCase()).toContain(word);
  });
});
