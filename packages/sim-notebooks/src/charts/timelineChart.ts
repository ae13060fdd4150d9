import type { EpisodeRow, FallRow, TimelineAxis } from '../rows/index.js';
import { INK, LINE_HEIGHT, ORANGE, STATE_LOOKS } from '../theme/index.js';
import { type ChartSpec, chartSpec } from './chartSpec.js';
import { moduleChannel } from './moduleChannel.js';
import { closingLines, timeChannel } from './timeAxis.js';
import { timelineLegend } from './timelineLegend.js';

/** Width of a timeline with its labels, and of its drawing area at least, pixels. */
const WHOLE_WIDTH = 900;
const LEAST_WIDTH = 560;
/** A letter of a label, at most, on average. */
const LETTER = 7;
/** Areas of the marks for one ball and for many. */
const SIZES = { domain: [1, 100], range: [20, 260] };
/** Marks hang a little below the middle of their line, so that the bars are seen behind them. */
const HANG = 3;

/**
 * The timeline of a show: a line for each module in loop order, bars for what could be seen there, circles where balls
 * fell. What is seen differs in height and lightness too, so that it can be told apart without colours.
 */
export function timelineChart(
  episodes: readonly EpisodeRow[],
  falls: readonly FallRow[],
  options: {
    readonly description: string;
    readonly axis: TimelineAxis;
    readonly modules: readonly string[];
    /** A stretch that is told elsewhere: from and to on the axis. */
    readonly told?: readonly [number, number];
  },
): ChartSpec {
  const { description, axis, modules, told } = options;
  const longest = Math.max(...modules.map((id) => id.length));
  const width = Math.max(LEAST_WIDTH, WHOLE_WIDTH - LETTER * longest);
  const x = (field: string): ChartSpec => timeChannel(field, axis);
  const y = moduleChannel(modules, { domain: false, grid: false, labelPadding: 6 });
  const bars = STATE_LOOKS.map(({ state, height, colour, hollow }) => ({
    data: { values: episodes.filter((episode) => episode.state === state) },
    mark: {
      type: 'rect',
      aria: false,
      height: { band: height },
      color: hollow ? 'white' : colour,
      ...(hollow && { stroke: colour, strokeWidth: 1.5 }),
    },
    encoding: { x: x('from'), x2: { field: 'to' }, y },
  }));
  return chartSpec(description, {
    spacing: 6,
    vconcat: [
      timelineLegend(width, new Set(episodes.map(({ state }) => state)), falls.length > 0, SIZES),
      {
        width,
        height: { step: lineHeight(modules.length) },
        layer: [
          ...bars,
          ...closingLines(axis),
          ...toldLines(told, x),
          {
            data: { values: falls },
            mark: {
              type: 'point',
              filled: true,
              aria: false,
              color: ORANGE,
              stroke: 'white',
              strokeWidth: 1,
              opacity: 1,
              yOffset: HANG,
            },
            encoding: {
              x: x('x'),
              y,
              size: {
                field: 'balls',
                type: 'quantitative',
                scale: { ...SIZES, clamp: true },
                legend: null,
              },
            },
          },
        ],
      },
    ],
    resolve: { scale: { x: 'independent', y: 'independent', size: 'independent' } },
  });
}

/** Few modules get more room each. */
function lineHeight(modules: number): number {
  return modules <= 12 ? LINE_HEIGHT + 9 : modules <= 30 ? LINE_HEIGHT + 4 : LINE_HEIGHT;
}

/** Lines around what is told elsewhere. */
function toldLines(
  told: readonly [number, number] | undefined,
  x: (field: string) => ChartSpec,
): ChartSpec[] {
  if (told === undefined) return [];
  return [
    {
      data: { values: told.map((at) => ({ at })) },
      mark: { type: 'rule', color: INK, strokeWidth: 1.5, aria: false },
      encoding: { x: x('at') },
    },
  ];
}
