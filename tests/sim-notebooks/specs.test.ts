import {
  type Answer,
  compare,
  compareAnswer,
  enoughAnswer,
  type Estimate,
  KINDS,
  loadScenarioFile,
  mendFirst,
  mendFirstAnswer,
  parseScenario,
  type Picture,
  replayShow,
  replicate,
  roughCut,
  showsHere,
  Study,
  system,
  toRunResult,
  untilNarrow,
} from '@lapwright/sim-core';
import { type ChartSpec, figures, toSvg } from '@lapwright/sim-notebooks';
import { describe, expect, it } from 'vitest';
import { floodClock, pairsChart, pictureChart } from '../../packages/sim-notebooks/src/charts/index.js';
import { timelineFigures } from '../../packages/sim-notebooks/src/report/index.js';
import { floodRows, pairRows } from '../../packages/sim-notebooks/src/rows/index.js';
import { floodCaption, pairsCaption } from '../../packages/sim-notebooks/src/words/index.js';
import { EVERYTHING } from '../sim-core/experiments/everything.js';

/*
 * Every chart there is, as a specification: kept rounded, so that a change shows in review, and compiled without a warning.
 */

/** Numbers to four digits and long lists by their first three: what matters of a specification in review. */
function rounded(value: unknown): unknown {
  if (typeof value === 'number') return Number(value.toPrecision(4));
  if (Array.isArray(value)) {
    const items = value as readonly unknown[];
    const few =
      items.length > 8 && items.every((item) => typeof item === 'object') ? items.slice(0, 3) : items;
    return [
      ...few.map(rounded),
      ...(few.length < items.length ? [`and ${items.length - few.length} more`] : []),
    ];
  }
  if (typeof value === 'object' && value !== null)
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, rounded(inner)]));
  return value;
}

async function specsOfRun(): Promise<[string, ChartSpec][]> {
  const scenario = parseScenario(EVERYTHING);
  const { summary } = await replicate(scenario.spec, { seed: 1, replications: 3, workers: 2 });
  const result = toRunResult(scenario, summary, { seed: 1, asked: 3 });
  return figures(result, scenario, roughCut(scenario.spec)).flatMap(({ id, spec }) =>
    spec ? [[id, spec] as [string, ChartSpec]] : [],
  );
}

async function picturesOfAnswers(): Promise<[string, Picture][]> {
  const { name, spec } = loadScenarioFile('scenarios/chain-of-five.yaml');
  const study = new Study({ seed: 1, source: showsHere() });
  const now = system('now', spec);
  const wide = system('wide', {
    ...spec,
    modules: spec.modules.map((module) =>
      module.id === 'fourth' ? { ...module, basket: { ...module.basket, capacity: 75 } } : module,
    ),
  });
  const parts: Pick<Answer, 'question' | 'pictures'>[] = [
    compareAnswer('now', 'wide', await compare(study, now, wide, { replications: 6 })),
    mendFirstAnswer(name, await mendFirst(study, spec, { replications: 6 })),
    enoughAnswer(
      name,
      await untilNarrow(study, spec, { on: 'throughput_bps', within: { relative: 0.5 }, atMost: 30 }),
    ),
  ];
  return parts.flatMap(({ question, pictures }) =>
    pictures.map((picture): [string, Picture] => [`${question}: ${picture.id}`, picture]),
  );
}

const ACROSS: Picture = {
  shape: 'ribbon',
  id: 'sweep',
  title: 'Balls in the loop',
  caption: 'Made up: spills over the number of balls.',
  axis: 'balls spilled',
  kind: 'perHour',
  across: { title: 'balls in the loop', kind: 'plain' },
  rows: [500, 550, 600].map((x, i) => ({ x, mean: 10 * i, low: 10 * i - 2, high: 10 * i + 3 })),
  lines: [{ value: 15, label: 'what you allow' }],
  chosen: { value: 550, label: '550 balls' },
};
const ORDERS: Picture = {
  shape: 'orders',
  id: 'orders',
  title: 'Another order',
  caption: 'Made up: b and c change places.',
  before: ['a', 'b', 'c'],
  after: ['a', 'c', 'b'],
  moved: ['b'],
};

function pairsSpec(differences: readonly number[], difference: Estimate): ChartSpec {
  const rows = pairRows(
    differences.map(() => 10),
    differences.map((value) => 10 + value),
  );
  const kind = 'perHour';
  return pairsChart(rows, {
    description: pairsCaption(rows, { title: 'balls spilled', kind: KINDS[kind], difference }),
    title: 'change in balls spilled',
    kind,
    difference,
  });
}
const estimate = (mean: number | null, low: number | null, high: number | null): Estimate => ({
  mean,
  low,
  high,
  confidence: 0.95,
  replications: 5,
});

const rough = roughCut(loadScenarioFile('scenarios/demo.yaml').spec);
const floods = floodRows(rough, 20);
const shown = replayShow(loadScenarioFile('scenarios/chain-of-five.yaml'), {
  seed: 1,
  replication: 0,
  pictures: true,
});

const all: [string, ChartSpec][] = [
  ...(await specsOfRun()),
  ...(await picturesOfAnswers()).map(([id, picture]): [string, ChartSpec] => [id, pictureChart(picture)]),
  ['sweep', pictureChart(ACROSS)],
  ['orders', pictureChart(ORDERS)],
  ['pairs', pairsSpec([-3, 0, 2, -5, -4], estimate(-2, -5.6, 1.6))],
  ['pairs without an interval', pairsSpec([-3], estimate(-3, null, null))],
  ['pairs that do not differ', pairsSpec([0, 0, 0], estimate(0, 0, 0))],
  ['flood clock', floodClock(floods, { description: floodCaption(floods, rough) })],
  ...timelineFigures(shown).flatMap(({ id, spec }): [string, ChartSpec][] => (spec ? [[id, spec]] : [])),
];

describe('every chart', () => {
  it('that the project knows of is here', () => {
    expect(all.map(([id]) => id)).toEqual(
      expect.arrayContaining([
        'loop-time',
        'throughput',
        'levels',
        'risk',
        'crew',
        'places',
        'pulls',
        'compare: differences',
        'mend-first: gains',
        'pairs',
        'sweep',
        'orders',
        'flood clock',
        'timeline',
      ]),
    );
  });

  it.each(all)('%s compiles without a warning and is as it was', async (_, spec) => {
    expect(String(spec['description']).length).toBeGreaterThan(10);
    const svg = await toSvg(spec);
    const [, width, height] = /^<svg[^>]*width="([\d.]+)" height="([\d.]+)"/.exec(svg) ?? [];
    // White paper under all of it, for dark pages.
    expect(svg).toContain(`<rect width="${width}" height="${height}" fill="white"/>`);
    expect(/NaN|undefined/.exec(svg)?.[0]).toBeUndefined();
    expect(rounded(spec)).toMatchSnapshot();
  });
});

describe('the paired differences', () => {
  it('are after minus before, without shows in which nothing was measured', () => {
    expect(pairRows([10, NaN, 4, 7], [12, 3, 1, NaN])).toEqual([
      { show: 0, difference: 2 },
      { show: 2, difference: -3 },
    ]);
  });

  it('are counted in the caption', () => {
    const rows = pairRows([1, 1, 1, 1], [2, 0, 0, 1]);
    const caption = pairsCaption(rows, {
      title: 'stops',
      kind: KINDS.perHour,
      difference: estimate(-0.25, -1.77, 1.27),
    });
    expect(caption).toContain('more in 1, less in 2, the same in 1 of 4 shows');
    expect(caption).toContain('-1.77 to 1.27 per hour');
  });
});

describe('the flood clock', () => {
  it('has the modules whose basket can run over, the soonest first', () => {
    const minutes = floods.map((row) => row.minutes);
    expect(minutes.length).toBe(20);
    expect(minutes).toEqual(minutes.toSorted((a, b) => a - b));
    expect(floodCaption([], { ...rough, modules: [] })).toBe(
      'No basket here can run over because its own module stops.',
    );
  });

  it('by hand: 30 balls into an empty basket at one a second take half a minute', () => {
    const bench = parseScenario(
      '{ name: bench, show: { lasts: 1 h }, feed: { steady: 1 bps }, modules: { lift: { basket: 30, drive: demand, start_at: 1, cycle: 0.01 s, travel: 5 s } } }',
    );
    const [row] = floodRows(roughCut(bench.spec), 5);
    expect(row?.minutes).toBeCloseTo(0.5, 2);
  });
});
