import { BLUE, CHART_WIDTH, GREY, INK, ORANGE, SKY } from '../theme/index.js';
import { type ChartSpec, chartSpec } from './chartSpec.js';

/** A point of a curve; with an interval when it was simulated. */
export interface CurvePoint {
  readonly x: number;
  readonly y: number;
  readonly low?: number;
  readonly high?: number;
}

/** A line through points, with its name at the right end. */
export interface Curve {
  readonly label: string;
  readonly points: readonly CurvePoint[];
  /** Where on the slider it comes to the front; needed with a slider. */
  readonly at?: number;
}

/** What is written beside the curves. */
export interface CurvesWords {
  readonly title: string;
  /** What there is to see; also the text alternative. */
  readonly caption: string;
  /** Of the axes, with their units. */
  readonly x: string;
  readonly y: string;
  /** A slider that brings one curve to the front, and the curve that is there at first. */
  readonly slider?: { readonly title: string; readonly start: number };
}

const HEIGHT = 300;
/** How far apart names at the right end must be, in pixels. */
const APART = 14;

/**
 * Curves to be compared, such as a formula and what was simulated: a curve whose points have intervals is drawn as dots with
 * bars, any other as a line. With a slider all are pale but one, and sent with `show(chart, { live: true })` the slider says
 * which; in viewers that have no slider all of them are there to be read.
 *
 * @throws RangeError when a curve has no place on the slider
 * @example
 * curvesChart([{ label: 'doubled', points: [{ x: 1, y: 2 }, { x: 2, y: 4 }] }], { title: 'Twice', caption: 'A line.', x: 'a number', y: 'twice the number' }).description // => 'A line.'
 */
export function curvesChart(curves: readonly Curve[], words: CurvesWords): ChartSpec {
  const { title, caption, slider } = words;
  const ends = endLabels(curves, slider === undefined);
  const common = { title, width: CHART_WIDTH - 160, height: HEIGHT };
  if (slider === undefined) {
    const layers = curves.flatMap((curve, i) => drawnCurve(curve, i, words));
    return chartSpec(caption, { ...common, layer: [...layers, ...ends.map((end) => nameLayer(end, words))] });
  }
  const stops = curves.map(({ label, at }) => {
    if (at === undefined)
      throw new RangeError(
        `curvesChart: the curve ${JSON.stringify(label)} needs its place on the slider, "at"`,
      );
    return at;
  });
  const [min, max] = [Math.min(...stops), Math.max(...stops)];
  const sorted = stops.toSorted((a, b) => a - b);
  const gaps = sorted.slice(1).map((stop, i) => stop - (sorted[i] ?? 0));
  const step = gaps.reduce((least, gap) => (gap > 0 ? Math.min(least, gap) : least), Math.max(1, max - min));
  // The nearest, so that there is always one, however the slider steps.
  const front = [
    { calculate: 'abs(datum.at - place)', as: 'away' },
    { joinaggregate: [{ op: 'min', field: 'away', as: 'nearest' }] },
    { filter: 'datum.away === datum.nearest' },
  ];
  const values = curves.flatMap(({ label, at, points }) => points.map((point) => ({ label, at, ...point })));
  return chartSpec(caption, {
    ...common,
    params: [
      {
        name: 'place',
        value: slider.start,
        bind: { input: 'range', min, max, step, name: `${slider.title} ` },
      },
    ],
    data: { values },
    layer: [
      {
        mark: { type: 'line', color: '#BBBBBB', strokeWidth: 1.2 },
        encoding: { ...axes(words), detail: { field: 'label', type: 'nominal' } },
      },
      ...ends.map((end) => nameLayer(end, words)),
      ...dotsWithBars(simulated(curves), front, BLUE, words),
      { mark: { type: 'line', color: BLUE, strokeWidth: 2.5 }, transform: front, encoding: axes(words) },
      {
        mark: { type: 'text', baseline: 'bottom', dy: -9, color: BLUE },
        transform: front,
        encoding: { ...axes(words), text: { field: 'y', type: 'quantitative', format: '.2f' } },
      },
    ],
  });
}

function axes({ x, y }: CurvesWords): ChartSpec {
  return {
    x: {
      field: 'x',
      type: 'quantitative',
      title: x,
      scale: { zero: false, nice: false, padding: 12 },
      axis: { grid: false, tickCount: 10 },
    },
    y: { field: 'y', type: 'quantitative', title: y, scale: { zero: false, padding: 20 } },
  };
}

function simulated(curves: readonly Curve[]): boolean {
  return curves.some(({ points }) => points.some(({ high }) => high !== undefined));
}

function dotsWithBars(
  bars: boolean,
  transform: readonly ChartSpec[],
  colour: string,
  words: CurvesWords,
): ChartSpec[] {
  const { x, y } = axes(words) as { readonly x: ChartSpec; readonly y: ChartSpec };
  const dots = {
    mark: { type: 'point', filled: true, opacity: 1, size: 40, color: colour },
    transform,
    encoding: { x, y },
  };
  if (!bars) return [dots];
  return [
    {
      mark: { type: 'rule', color: colour, strokeWidth: 2 },
      transform: [...transform, { filter: 'isValid(datum.high)' }],
      encoding: { x, y: { ...y, field: 'low' }, y2: { field: 'high' } },
    },
    dots,
  ];
}

const COLOURS = [BLUE, ORANGE, INK, SKY];

function colourOf(i: number): string {
  return COLOURS[i % COLOURS.length] ?? BLUE;
}

function drawnCurve(curve: Curve, i: number, words: CurvesWords): ChartSpec[] {
  const colour = colourOf(i);
  const layers = simulated([curve])
    ? dotsWithBars(true, [], colour, words)
    : [{ mark: { type: 'line', color: colour, strokeWidth: 2 }, encoding: axes(words) }];
  return layers.map((layer) => ({ data: { values: curve.points }, ...layer }));
}

interface EndLabel {
  readonly label: string;
  readonly x: number;
  readonly y: number;
  readonly colour: string;
  /** Pixels it is moved by so that it does not cover its neighbour. */
  readonly dy: number;
}

/** The names at the right ends of curves, moved apart where the ends come close. */
function endLabels(curves: readonly Curve[], coloured: boolean): EndLabel[] {
  const ys = curves.flatMap(({ points }) => points.map(({ y }) => y));
  const [low, high] = [Math.min(...ys), Math.max(...ys)];
  const pixel = (y: number): number => 20 + (HEIGHT - 40) * (high === low ? 0.5 : (high - y) / (high - low));
  const ends = curves.flatMap(({ label, points }, i) => {
    const last = points.at(-1);
    return last === undefined ? [] : [{ label, x: last.x, y: last.y, colour: coloured ? colourOf(i) : GREY }];
  });
  let below = -Infinity;
  return ends
    .toSorted((a, b) => b.y - a.y)
    .map((end) => {
      const at = Math.max(pixel(end.y), below + APART);
      below = at;
      return { ...end, dy: Math.round(at - pixel(end.y)) };
    });
}

function nameLayer({ label, x, y, dy, colour }: EndLabel, words: CurvesWords): ChartSpec {
  return {
    data: { values: [{ x, y, label }] },
    mark: { type: 'text', align: 'left', baseline: 'middle', dx: 24, dy, color: colour },
    encoding: { ...axes(words), text: { field: 'label' } },
  };
}
