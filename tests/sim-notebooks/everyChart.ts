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
import { type ChartSpec, type Curve, curvesChart, figures } from '@lapwright/sim-notebooks';
import { floodClock, pairsChart, pictureChart } from '../../packages/sim-notebooks/src/charts/index.js';
import { timelineFigures } from '../../packages/sim-notebooks/src/report/index.js';
import { floodRows, pairRows } from '../../packages/sim-notebooks/src/rows/index.js';
import { floodCaption, pairsCaption } from '../../packages/sim-notebooks/src/words/index.js';
import { EVERYTHING } from '../sim-core/experiments/everything.js';

/* Every chart there is, from real results where a scenario of the project gives one, and made up otherwise. */

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
    compareAnswer('now', 'wide', await compare(study, now, wide, { replications: 36 })),
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

const POINTS: Picture = {
  shape: 'points',
  id: 'quantiles',
  title: 'Cycle times',
  caption: 'Made up: cycle times seen and expected.',
  axis: 'cycle time seen',
  across: 'cycle time expected',
  kind: 'time',
  rows: [2.4, 2.6, 2.7, 2.75, 3.1].map((x, i) => ({ x, y: x + 0.02 * (i - 2) })),
};

const AXES = {
  title: 'Curves',
  caption: 'Made up: some curves and dots.',
  x: 'places',
  y: 'balls per second',
};
const DOTS: Curve = { label: 'seen', points: [1, 2, 8].map((x) => ({ x, y: 0.5, low: 0.4, high: 0.65 })) };
const BENT: readonly Curve[] = [1, 2, 5].map((at) => ({
  label: `bent ${at}`,
  at,
  points: [0, 2, 4, 9].map((x) => ({ x, y: (x + at) / (x + at + 1) })),
}));

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
export const estimate = (mean: number | null, low: number | null, high: number | null): Estimate => ({
  mean,
  low,
  high,
  confidence: 0.95,
  replications: 5,
});

export const rough = roughCut(loadScenarioFile('scenarios/demo.yaml').spec);
export const floods = floodRows(rough, 20);
const shown = replayShow(loadScenarioFile('scenarios/chain-of-five.yaml'), {
  seed: 1,
  replication: 0,
  pictures: true,
});

/** Every chart there is, by name. */
export const everyChart: readonly (readonly [string, ChartSpec])[] = [
  ...(await specsOfRun()),
  ...(await picturesOfAnswers()).map(([id, picture]): [string, ChartSpec] => [id, pictureChart(picture)]),
  ['sweep', pictureChart(ACROSS)],
  ['curves', curvesChart([DOTS, ...BENT.slice(0, 2)], AXES)],
  ['curves with a slider', curvesChart(BENT, { ...AXES, slider: { title: 'bend', start: 2 } })],
  ['points', pictureChart(POINTS)],
  ['orders', pictureChart(ORDERS)],
  ['pairs', pairsSpec([-3, 0, 2, -5, -4], estimate(-2, -5.6, 1.6))],
  ['pairs without an interval', pairsSpec([-3], estimate(-3, null, null))],
  ['pairs that do not differ', pairsSpec([0, 0, 0], estimate(0, 0, 0))],
  ['flood clock', floodClock(floods, { description: floodCaption(floods, rough) })],
  ...timelineFigures(shown).flatMap(({ id, spec }): [string, ChartSpec][] => (spec ? [[id, spec]] : [])),
];
