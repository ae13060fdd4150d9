import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  type Episode,
  loadScenarioFile,
  type LogEntry,
  parseScenario,
  type PlaceState,
  type ReplayedShow,
  replayShow,
  type Scenario,
  type TimeWindow,
} from '@lapwright/sim-core';
import { CAUTIONS, replayReport, toSvg } from '@lapwright/sim-notebooks';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { timelineFigures } from '../../packages/sim-notebooks/src/report/replayReport.js';
import {
  episodeRows,
  fallRows,
  shownModules,
  STATE_WORDS,
  timelineAxis,
} from '../../packages/sim-notebooks/src/rows/index.js';
import { STATE_LOOKS } from '../../packages/sim-notebooks/src/theme/index.js';
import { brokenLabels } from '../browser/brokenLabels.js';
import { findBrowser } from '../browser/findBrowser.mjs';
import { loop, module } from '../build.js';
import { EVERYTHING } from '../sim-core/experiments/everything.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-timeline-'));
afterAll(() => rmSync(folder, { recursive: true }));

const H = 3600;
/** 10:00 to 12:00 and, after half an hour, 12:30 to 14:30. */
const TABLE = loop([module('mill'), module('stair'), module('jug')], [1, 1, 1], {
  show: {
    seconds: 4 * H,
    warmUpSeconds: 0,
    opensAtSeconds: 10 * H,
    sessions: [
      { fromSeconds: 0, clockSeconds: 0 },
      { fromSeconds: 2 * H, clockSeconds: 2.5 * H },
    ],
  },
});
const spill = (moduleIndex: number, time: number, balls: number): LogEntry => ({
  time,
  kind: 'spills',
  module: moduleIndex,
  balls,
});
const episode = (moduleIndex: number, state: PlaceState, from: number, to: number): Episode => ({
  module: moduleIndex,
  state,
  from,
  to,
});

describe('the axis of a timeline', () => {
  it('runs on where the show is closed, and knows the clock of each session', () => {
    expect(timelineAxis(TABLE, { from: H, to: 3 * H })).toEqual({
      from: 11,
      to: 13,
      byTheClock: true,
      // An hour after 11:00 the clock shows 12:30.
      sessions: [
        { at: 11, clock: 11 },
        { at: 12, clock: 12.5 },
      ],
      start: H,
    });
    expect(timelineAxis(TABLE, { from: 3 * H, to: 4 * H })).toMatchObject({ from: 13.5, to: 14.5 });
  });
});

describe('the rows of a timeline', () => {
  const window = { from: 0, to: 4 * H };
  const axis = timelineAxis(TABLE, window);

  it('place episodes on the axis, and widen stops that could not be seen otherwise', () => {
    const episodes = [episode(0, 'running', 0, 2 * H), episode(1, 'stopped', H, H + 1)];
    const [long, short] = episodeRows({ window, episodes }, [0, 1, 2], TABLE, axis);
    expect(long).toEqual({ module: 'mill', state: 'running', from: 10, to: 12 });
    expect(short).toMatchObject({ module: 'stair', state: 'stopped', from: 11 });
    // Wider than a second, narrower than two minutes of the four hours.
    expect(short?.to).toBeGreaterThan(11 + 10 / H);
    expect(short?.to).toBeLessThan(11 + 120 / H);
  });

  it('add up balls that fall close together, at the middle of the balls', () => {
    const log = [spill(1, 600, 1), spill(1, 660, 3), spill(2, 630, 7), spill(1, 7200, 2)];
    expect(fallRows(log, window, [1, 2], TABLE, axis)).toEqual([
      // (600 + 3 x 660) / 4 = 645 s after 10:00.
      { module: 'stair', x: expect.closeTo(10 + 645 / H, 9) as number, balls: 4 },
      { module: 'jug', x: expect.closeTo(10 + 630 / H, 9) as number, balls: 7 },
      { module: 'stair', x: expect.closeTo(12, 9) as number, balls: 2 },
    ]);
  });

  it('are those of all modules, or of the sixty with most balls spilled, then most time stopped', () => {
    const many = loop(
      Array.from({ length: 200 }, (_, i) => module(`m${i}`)),
      [],
    );
    const log = Array.from({ length: 50 }, (_, i) => spill(199 - i, 10, i + 1));
    const episodes = Array.from({ length: 20 }, (_, i) => episode(i, 'stopped', 0, 10 * (i + 1)));
    const shown = shownModules({ window: { from: 0, to: 100 }, episodes }, log, many);
    // The ten longest stopped of the first twenty, and the last fifty, in loop order.
    const expected = [
      ...Array.from({ length: 10 }, (_, i) => 10 + i),
      ...Array.from({ length: 50 }, (_, i) => 150 + i),
    ];
    expect(shown).toEqual(expected);
    expect(shownModules({ window, episodes: [] }, [], TABLE)).toEqual([0, 1, 2]);
    expect(shownModules({ window, episodes: [] }, [], many)).toEqual([]);
  });
});

/** Lightness of a colour from 0 to 1 (CIE L* of the relative luminance of WCAG 2.1). */
function lightness(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5]
    .map((i) => Number.parseInt(hex.slice(i, i + 2), 16) / 255)
    .map((c) => (c <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 1.16 * Math.cbrt(0.2126 * r + 0.7152 * g + 0.0722 * b) - 0.16;
}

describe('what can be seen at a module', () => {
  it('differs in lightness and height, so that no two are alike in black and white', () => {
    expect(STATE_LOOKS.map(({ state }) => state).toSorted()).toEqual(
      STATE_WORDS.map(({ state }) => state).toSorted(),
    );
    const filled = STATE_LOOKS.filter(({ hollow }) => !hollow);
    expect(STATE_LOOKS.length - filled.length).toBe(1);
    for (const [i, a] of filled.entries()) {
      for (const b of filled.slice(i + 1)) {
        const both = `${a.state} and ${b.state}`;
        expect(Math.abs(lightness(a.colour) - lightness(b.colour)), both).toBeGreaterThan(0.1);
        expect(Math.abs(a.height - b.height), both).toBeGreaterThan(0.15);
      }
    }
  });
});

const told = (scenario: Scenario, replication: number, window?: TimeWindow): ReplayedShow =>
  replayShow(scenario, { seed: 1, replication, pictures: true, ...(window && { window }) });

/** Names that every object of the language has, text that a page would obey, a name as long as allowed, no clock. */
const HOSTILE = parseScenario(
  `name: '<script>alert(1)</script> & "quotes"'
show: { lasts: 3 h }
feed: { steady: 1 bps }
modules:
  constructor: { title: '<b onmouseover=alert(3)>', basket: 5, cycle: 1.1 s, travel: 2 s, stops: { jam: { running: 9 s, itself: 2 s } } }
  a-module-with-a-name-as-long-as-allowed: { basket: 3, cycle: 0.9 s, travel: 2 s, stops: { jam: { running: 9 min, itself: 1 min } } }
  "1": { basket: unlimited, cycle: 0.5 s, travel: 2 s }
`,
  `<svg onload=alert(4)>.yaml`,
);
const CROWD = parseScenario(`name: crowd
show: { lasts: 20 min }
charge: 2000
templates: { t: { basket: 3, cycle: 1 s, travel: 2 s, stops: { jam: { running: { exponential: { mean: 3 h } }, itself: 1 min } } } }
modules:
${Array.from({ length: 2000 }, (_, i) => `  m${i}: { like: t }`).join('\n')}
`);
const CALM = parseScenario(
  'name: calm\nshow: { opens: 10:00, lasts: 1 h }\ncharge: 9\nmodules: { a: { basket: 9, cycle: 1 s, travel: 2 s } }\n',
);
const everything = parseScenario(EVERYTHING);

const shows: [string, ReplayedShow][] = [
  ['the demo, one hour', told(loadScenarioFile('scenarios/demo.yaml'), 0, { from: H, to: 2 * H })],
  ['the demo', told(loadScenarioFile('scenarios/demo.yaml'), 0)],
  ['chain-of-five', told(loadScenarioFile('scenarios/chain-of-five.yaml'), 0)],
  ['everything', told(everything, 1)],
  ['everything, five minutes', told(everything, 1, { from: 600, to: 900 })],
  ['hostile', told(HOSTILE, 0)],
  ['crowd', told(CROWD, 0)],
  ['calm', told(CALM, 0)],
];

describe.each(shows)('the report of a replay: %s', (name, shown) => {
  let html = '';
  const command = 'npx lapwright replay x.yaml --replication 0 --seed 1';
  beforeAll(async () => {
    html = await replayReport({ shown, command });
    writeFileSync(join(folder, `${name}.html`), html);
  });

  it('is one file without script, with every part', () => {
    expect(/<script|<link|<iframe|javascript:/i.exec(html)?.[0]).toBeUndefined();
    expect(/<[^>]*\s(?:on\w+|src|href)=/.exec(html)?.[0]).toBeUndefined();
    expect(/\b(?:NaN|undefined|null)\b/.exec(html)?.[0]).toBeUndefined();
    for (const id of ['timeline', 'story', 'trust', 'cautions', 'provenance'])
      expect(html.includes(`<section id="${id}">`), id).toBe(true);
    const { spec, source } = shown.scenario;
    const part = shown.window.from > 0 || shown.window.to < spec.show.seconds;
    expect(html.includes('<section id="whole-show">')).toBe(part);
    for (const text of [source.sha256, command, ...CAUTIONS])
      expect(html.replaceAll('&nbsp;', ' ').includes(text), text).toBe(true);
  });

  it('is written as the same text again', async () => {
    // Compared by truth, not by toBe: a difference would print two whole pages.
    expect((await replayReport({ shown, command })) === html).toBe(true);
  });
});

describe('the caption of a timeline', () => {
  const caption = (shown: ReplayedShow): string => timelineFigures(shown)[0]?.caption ?? '';

  it('says who was stopped longest and where balls fell, from the numbers', () => {
    const five = told(loadScenarioFile('scenarios/chain-of-five.yaml'), 0);
    const { spills, spilled } = five.totals;
    expect(spills).toHaveLength(1);
    expect(caption(five)).toMatch(/^Only third was stopped, once: 2 min from 10:20:00 on\. /);
    expect(caption(five)).toContain(`${spilled} balls spilled, all at `);
    // night-porter rests from 20 to 24 min; brass-ladder behind it backs up within about a minute.
    expect(caption(told(loadScenarioFile('scenarios/back-up.yaml'), 0))).toMatch(
      /^Only night-porter was stopped, once: 4 min from 0:20:00 on\. brass-ladder was held up longest, about [23] min/,
    );
    expect(caption(told(CALM, 0))).toMatch(/^Nothing was stopped\. No basket ran over\./);
  });

  it('adds up to all balls that fell', () => {
    let checked = 0;
    for (const [name, shown] of shows) {
      const { spilled } = shown.totals;
      const sentence = /(\d+) balls? spilled: ([^.]*)\./.exec(caption(shown));
      if (sentence === null) continue;
      checked++;
      expect(Number(sentence[1]), name).toBe(spilled);
      const parts = [...(sentence[2] ?? '').matchAll(/(\d+) at /g)].map(([, balls]) => Number(balls));
      expect(
        parts.reduce((sum, balls) => sum + balls, 0),
        name,
      ).toBe(spilled);
    }
    expect(checked).toBeGreaterThan(3);
  });

  it('says how many modules are left out', async () => {
    const crowd = told(CROWD, 0);
    expect(caption(crowd)).toMatch(/Only 60 of 2000 are drawn: those where most happened/);
    const svg = await toSvg(timelineFigures(crowd)[0]?.spec ?? {});
    expect([...svg.matchAll(/>m\d+</g)]).toHaveLength(60);
  });
});

const program = findBrowser();

// Without a browser ensurePrograms has said so; in continuous integration it has failed.
describe.runIf(program !== undefined)('in a browser', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await chromium.launch({
      executablePath: program ?? '',
      args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-sync'],
    });
  });
  afterAll(() => browser.close());

  it.each(shows.map(([name]) => name))(
    '%s opens without an error or a request, and no label is cut or covered',
    async (name) => {
      const page = await browser.newPage({ viewport: { width: 1100, height: 900 } });
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
      const found = await brokenLabels(page);
      expect(found).toMatchObject({ cut: [], covered: [], sideways: false });
      expect(found.labels).toBeGreaterThan(5);
      // Every picture fits beside its labels without swiping.
      const wide = await page.evaluate(
        () =>
          [...document.querySelectorAll('.picture')].filter((box) => box.scrollWidth > box.clientWidth)
            .length,
      );
      expect(wide).toBe(0);
      await page.close();
    },
  );
});
