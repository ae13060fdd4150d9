import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  loadScenarioFile,
  parseScenario,
  replicate,
  type RunResult,
  type Scenario,
  toRunResult,
} from '@lapwright/sim-core';
import { CAUTIONS, runReport } from '@lapwright/sim-notebooks';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findBrowser } from '../browser/findBrowser.mjs';
import { EVERYTHING, LOCKS } from '../sim-core/experiments/everything.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-report-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function reportOf(
  scenario: Scenario,
  replications: number,
): Promise<{ html: string; result: RunResult }> {
  const { summary } = await replicate(scenario.spec, { seed: 1, replications, workers: 2 });
  const result = toRunResult(scenario, summary, { seed: 1, asked: replications });
  const html = await runReport({
    scenario,
    result,
    command: `lapwright run ${scenario.source.file} --replications ${replications} --seed 1`,
  });
  return { html, result };
}

const HOSTILE = parseScenario(
  `name: '<script>alert(1)</script> & "quotes"'
about: '</style><img src=x onerror=alert(2)>'
show: { lasts: 2 h }
feed: { steady: 1 bps }
modules:
  a: { title: '<b onmouseover=alert(3)>', builder: "O'<i>", basket: 5, cycle: 1.1 s, travel: 2 s }
  a-module-with-a-name-as-long-as-allowed: { basket: unlimited, cycle: 0.5 s, travel: 2 s }
`,
  `<svg onload=alert(4)>.yaml`,
);

/** Names that every object of the language has, long ways, and more modules than any table. */
const ODD_NAMES = parseScenario(`name: odd names
show: { lasts: 20 min }
charge: 10
modules:
${['constructor', 'toString', 'hasOwnProperty', '1', 'null'].map((id) => `  "${id}": { basket: 2, cycle: 1 s, travel: 2 s, stops: { jam: { running: 3 min, itself: 1 min } } }`).join('\n')}
`);
const CROWD = parseScenario(`name: crowd
show: { lasts: 2 min }
charge: 1200
templates: { t: { basket: 2, cycle: 1 s, travel: 2 s } }
modules:
${Array.from({ length: 1200 }, (_, i) => `  m${i}: { like: t }`).join('\n')}
`);

/** So many sessions that not each can have a label, with names from a file that would be tags. */
const MANY_DAYS = parseScenario(`name: many days
show: { days: [${Array.from({ length: 12 }, () => '{ opens: 10:15, closes: 16:45, breaks: [{ from: 12:00, to: 12:40 }] }').join(', ')}] }
charge: 30
crew: { minders: 1, notice: 10 s, walk: 5 s }
modules:
  lift: { basket: 20, cycle: 2 s, travel: 5 s, lever: { watches: [jug], takes: 10 s } }
  jug:
    basket: { balls: 12, when_full: { return: { to: lift, time: 4 s } } }
    cycle: 1.9 s
    travel: 5 s
    stops: { jam: { running: { exponential: { mean: 20 min } }, crew: { clear: 1 min } } }
    pull: { stops: { more_than: 1, within: 1 h }, spares: [twin], swap: 1 min, mend: 20 h }
spares:
  twin: { title: '<img src=x onerror=alert(5)>', basket: 12, cycle: 2 s, travel: 5 s }
`);

const scenarios: [string, Scenario, number][] = [
  ['demo', loadScenarioFile('scenarios/demo.yaml'), 6],
  ['bench-one', loadScenarioFile('scenarios/bench-one.yaml'), 5],
  ['chain-of-five', loadScenarioFile('scenarios/chain-of-five.yaml'), 1],
  ['hostile', HOSTILE, 3],
  ['odd names', ODD_NAMES, 3],
  ['everything', parseScenario(EVERYTHING), 6],
  ['a lock', parseScenario(LOCKS), 8],
  ['many days', MANY_DAYS, 2],
];

describe.each(scenarios)('the report of %s', (name, scenario, replications) => {
  let html = '';
  let result: RunResult;
  beforeAll(async () => {
    ({ html, result } = await reportOf(scenario, replications));
    writeFileSync(join(folder, `${name}.html`), html);
  });

  it('is one file without script, with every part', () => {
    expect(/<script|<link|<iframe|javascript:/i.exec(html)?.[0]).toBeUndefined();
    // Inside tags only: the hostile text itself may be shown.
    expect(/<[^>]*\s(?:on\w+|src|href)=/.exec(html)?.[0]).toBeUndefined();
    for (const id of [
      'risk',
      'spills',
      'levels',
      'loop-time',
      'throughput',
      'places',
      'starvation',
      'stops',
      'crew',
      'figures',
      'modules',
      'trust',
      'cautions',
      'provenance',
    ]) {
      expect(html.includes(`<section id="${id}">`), id).toBe(true);
    }
    for (const { id } of result.modules) expect(html.includes(id), id).toBe(true);
    expect(html.includes('What to do')).toBe(true);
  });

  it('shows where it comes from and the cautions', () => {
    const said = [
      result.scenario.sha256,
      `--replications ${replications} --seed 1`,
      result.generator,
      ...CAUTIONS,
    ];
    for (const text of said) expect(html.replaceAll('&nbsp;', ' ').includes(text), text).toBe(true);
  });

  it('is written as the same text again', async () => {
    const again = (await reportOf(scenario, replications)).html;
    // Compared by truth, not by toBe: a difference would print two whole pages.
    expect(again === html).toBe(true);
  });
});

it('shows more modules than any table holds', async () => {
  const { html } = await reportOf(CROWD, 2);
  expect(html.includes('m1199')).toBe(true);
});

const program = findBrowser();

// Without a browser ensurePrograms has said so; in continuous integration it has failed.
describe.runIf(program !== undefined)('in a browser', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await chromium.launch({
      executablePath: program ?? '',
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
  });
  afterAll(() => browser.close());

  it.each(scenarios.map(([name]) => name))(
    '%s opens without an error or a request, and no label is cut or covered',
    async (name) => {
      const page = await browser.newPage({ viewport: { width: 1200, height: 900 } });
      const troubles: string[] = [];
      page.on('console', (message) => troubles.push(`${message.type()}: ${message.text()}`));
      page.on('pageerror', (error) => troubles.push(String(error)));
      page.on('dialog', (dialog) => troubles.push(`dialog ${dialog.message()}`));
      const requests: string[] = [];
      page.on('request', (request) => requests.push(request.url()));
      const url = pathToFileURL(join(folder, `${name}.html`)).href;
      await page.goto(url, { waitUntil: 'networkidle' });
      expect(troubles).toEqual([]);
      expect(requests).toEqual([url]);

      const found = await page.evaluate(() => {
        const cut: string[] = [];
        const overlaps: string[] = [];
        let labels = 0;
        for (const svg of document.querySelectorAll('svg')) {
          const frame = svg.getBoundingClientRect();
          const boxes = [...svg.querySelectorAll('text')]
            .filter(
              (text) =>
                text.textContent !== '' &&
                getComputedStyle(text).opacity !== '0' &&
                text.getAttribute('opacity') !== '0',
            )
            .map((text) => ({ text: text.textContent ?? '', box: text.getBoundingClientRect() }));
          labels += boxes.length;
          for (const { text, box } of boxes) {
            const inside =
              box.left >= frame.left - 1 &&
              box.right <= frame.right + 1 &&
              box.top >= frame.top - 1 &&
              box.bottom <= frame.bottom + 1;
            if (!inside || text.includes('…')) cut.push(text);
          }
          for (const [i, a] of boxes.entries()) {
            for (const b of boxes.slice(i + 1)) {
              const wide = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
              const high = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
              // Lines of a chart with a line for each module may touch, not cover each other.
              if (wide > 1 && high > 4) overlaps.push(`${a.text} / ${b.text}`);
            }
          }
        }
        const sideways = document.documentElement.scrollWidth > document.documentElement.clientWidth;
        return { cut, overlaps, labels, sideways, pictures: document.querySelectorAll('svg').length };
      });
      expect(found.cut).toEqual([]);
      expect(found.overlaps).toEqual([]);
      expect(found.sideways).toBe(false);
      expect(found.pictures).toBeGreaterThan(4);
      expect(found.labels).toBeGreaterThan(20);
      await page.close();
    },
  );
});
