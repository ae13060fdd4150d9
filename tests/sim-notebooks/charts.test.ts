import { readdirSync } from 'node:fs';
import {
  loadScenarioFile,
  parseScenario,
  replicate,
  roughCut,
  type Scenario,
  toRunResult,
} from '@lapwright/sim-core';
import { figures, toSvg } from '@lapwright/sim-notebooks';
import { expect, describe, it } from 'vitest';
import { escapeHtml } from '../../packages/sim-notebooks/src/report/html.js';
import { type ShowHours, timeChannel } from '../../packages/sim-notebooks/src/charts/timeAxis.js';
import { AMOUNT_SCHEME, PLACE_COLOURS, THREE_PARTS } from '../../packages/sim-notebooks/src/theme/index.js';
import { EVERYTHING, LOCKS } from '../sim-core/experiments/everything.js';

/** Relative luminance of a colour (WCAG 2.1, definition of relative luminance). */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5]
    .map((i) => Number.parseInt(hex.slice(i, i + 2), 16) / 255)
    .map((c) => (c <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [high = 0, low = 0] = [luminance(a), luminance(b)].toSorted((x, y) => y - x);
  return (high + 0.05) / (low + 0.05);
}

const CALM = `name: calm
show: { lasts: 1 h }
charge: 30
modules:
  first: { basket: 60, cycle: 1 s, travel: 5 s }
  second: { basket: 60, cycle: 1.1 s, travel: 5 s }
`;

describe('charts', () => {
  /** Figures that every run has. */
  const ALWAYS = [
    'risk',
    'spills',
    'levels',
    'loop-time',
    'throughput',
    'places',
    'starvation',
    'stops',
    'crew',
  ];

  it.each<[string, Scenario, readonly string[]]>([
    ['a loop that never stops', parseScenario(CALM), []],
    // Their stops last longer than a minute, in which no ball comes out.
    ['bench-one', loadScenarioFile('scenarios/bench-one.yaml'), ['moving']],
    ['chain-of-five', loadScenarioFile('scenarios/chain-of-five.yaml'), ['moving']],
    ['everything', parseScenario(EVERYTHING), ['held-up', 'pulls', 'moving', 'topped-up']],
    ['a lock', parseScenario(LOCKS), ['held-up', 'moving', 'topped-up']],
  ])(
    'of %s compile without a warning, those and only those that apply, with numbers in the captions',
    async (_, scenario, more) => {
      const { summary } = await replicate(scenario.spec, { seed: 1, replications: 3, workers: 2 });
      const result = toRunResult(scenario, summary, { seed: 1, asked: 3 });
      const all = figures(result, scenario, roughCut(scenario.spec));
      expect(all.map(({ id }) => id).toSorted()).toEqual([...ALWAYS, ...more].toSorted());
      for (const { spec, caption, title } of all) {
        expect(caption.length, title).toBeGreaterThan(10);
        if (spec) expect(await toSvg(spec)).toMatch(/^<svg[\s\S]*<\/svg>$/);
      }
    },
  );

  it.each(readdirSync('scenarios').filter((name) => name.endsWith('.yaml')))(
    'of scenarios/%s compile without a warning',
    async (name) => {
      const scenario = loadScenarioFile(`scenarios/${name}`);
      const { summary } = await replicate(scenario.spec, { seed: 1, replications: 2, workers: 2 });
      const all = figures(
        toRunResult(scenario, summary, { seed: 1, asked: 2 }),
        scenario,
        roughCut(scenario.spec),
      );
      expect(all.length).toBeGreaterThanOrEqual(ALWAYS.length);
      for (const { spec } of all) if (spec) expect(await toSvg(spec)).toMatch(/^<svg[\s\S]*<\/svg>$/);
    },
  );

  it('refuse a specification that compiles with a warning', async () => {
    // Two channels of one scale, one with a legend and one without: vega-lite has to choose, and says so.
    const amount = { field: 'a', type: 'quantitative' };
    const spec = {
      description: 'wrong',
      data: { values: [{ a: 1 }, { a: 2 }] },
      mark: 'rect',
      encoding: {
        x: amount,
        color: { ...amount, legend: { orient: 'top' } },
        stroke: { ...amount, legend: null },
      },
    };
    await expect(toSvg(spec)).rejects.toThrow(/chart "wrong"/);
  });

  it('part colours that stand side by side differ in lightness, so that they stay apart in black and white', () => {
    const { baskets, mechanisms, run_outs, chutes, floor, box, lost } = PLACE_COLOURS;
    const stacks = [
      THREE_PARTS,
      [baskets, mechanisms, run_outs, chutes, floor, box, lost],
      [baskets, mechanisms, run_outs, floor, lost],
      [run_outs, chutes, floor, lost],
      [run_outs, floor, box, lost],
    ];
    for (const parts of stacks) {
      for (const [i, colour] of parts.slice(1).entries())
        expect(contrast(parts[i] ?? '', colour), `${parts[i]} beside ${colour}`).toBeGreaterThan(1.25);
    }
    expect(AMOUNT_SCHEME).toBe('yelloworangebrown');
  });
});

describe('the axis of time', () => {
  /** Ticks as place on the axis and label, read back from the expression that vega is given. */
  function ticks(hours: ShowHours): (readonly [number, string])[] {
    const { values, labelExpr } = timeChannel('hour', hours)['axis'] as {
      values: number[];
      labelExpr: string;
    };
    const labels = JSON.parse(labelExpr.slice(0, labelExpr.indexOf('[indexof('))) as string[][];
    return values.map((value, i) => [value, labels[i]?.join(' ') ?? '']);
  }

  it('shows the clock in each session, and the day where it changes', () => {
    // 10:00 to 16:00 with a break from 12:00 to 13:00, and 9:30 to 14:30 the next day: 2 h, 3 h and 5 h of public time.
    const sessions = [
      { at: 10, clock: 10 },
      { at: 12, clock: 13 },
      { at: 15, clock: 33.5 },
    ];
    expect(ticks({ from: 10, to: 20, byTheClock: true, sessions })).toEqual([
      [10, '10:00 day 1'],
      [11, '11:00'],
      [12, '13:00'],
      [13, '14:00'],
      [14, '15:00'],
      [15, '9:30 day 2'],
      [16.5, '11:00'],
      [17.5, '12:00'],
      [18.5, '13:00'],
      [19.5, '14:00'],
    ]);
  });

  it('leaves labels out where there is no room for them', () => {
    const sessions = Array.from({ length: 30 }, (_, day) => ({ at: 10 + 6 * day, clock: 10 + 24 * day }));
    const found = ticks({ from: 10, to: 190, byTheClock: true, sessions });
    expect(found.length).toBeGreaterThan(8);
    // 700 pixels for 180 hours, and a label such as "day 29" is some 40 pixels wide.
    for (const [i, [at]] of found.slice(1).entries())
      expect(at - (found[i]?.[0] ?? 0)).toBeGreaterThan((40 * 180) / 700);
    expect(found.every(([, label]) => /^10:00 day \d+$/.test(label))).toBe(true);
  });
});

describe('escapeHtml', () => {
  it('leaves nothing that HTML would take for its own', () => {
    expect(escapeHtml(`<a href='x' title="y">&</a>`)).toBe(
      '&lt;a href=&#39;x&#39; title=&quot;y&quot;&gt;&amp;&lt;/a&gt;',
    );
  });
});
