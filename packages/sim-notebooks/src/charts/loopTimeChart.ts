import type { LoopTimeRow } from '../rows/index.js';
import { BLUE, CHART_HEIGHT, CHART_WIDTH, GREY, ORANGE } from '../theme/index.js';
import { type ChartSpec, chartSpec } from './chartSpec.js';

/** A marked value on the axis of loop times. */
export interface LoopTimeMark {
  readonly minutes: number;
  readonly label: string;
}

/** The distribution of loop times as bars, with lines at the median and at the ends of the middle nine tenths. */
export function loopTimeChart(
  rows: readonly LoopTimeRow[],
  options: {
    readonly description: string;
    readonly title: string;
    readonly marks: readonly LoopTimeMark[];
    readonly what: string;
  },
): ChartSpec {
  const { description, title, marks, what } = options;
  const bar = (rows[0]?.toMinutes ?? 0) - (rows[0]?.fromMinutes ?? 0);
  // Room at both ends, so that a bar does not stand on the axis.
  const domain = [
    Math.max(0, (rows[0]?.fromMinutes ?? 0) - 3 * bar),
    (rows.at(-1)?.toMinutes ?? 1) + 3 * bar,
  ];
  const x = {
    type: 'quantitative',
    title,
    scale: { zero: false, nice: false, domain },
    axis: { tickCount: 12 },
  };
  return chartSpec(description, {
    width: CHART_WIDTH,
    height: CHART_HEIGHT,
    layer: [
      {
        // Rectangles, because a bar with two ends along the axis would be drawn lying down.
        data: { values: rows.map((row) => ({ ...row, base: 0 })) },
        mark: { type: 'rect', color: BLUE, stroke: 'white', strokeWidth: 0.5 },
        encoding: {
          x: { field: 'fromMinutes', ...x },
          x2: { field: 'toMinutes' },
          y: {
            field: 'share',
            type: 'quantitative',
            title: `share of ${what}`,
            axis: { format: '.0%', tickCount: 5 },
          },
          y2: { field: 'base' },
        },
      },
      {
        data: { values: marks },
        mark: { type: 'rule', color: ORANGE, strokeWidth: 1.5, strokeDash: [5, 3] },
        encoding: { x: { field: 'minutes', ...x } },
      },
      // The middle label stands a line higher and the outer ones lean outwards, so that they cannot cover each other.
      ...marks.map(({ minutes, label }, i) => ({
        data: { values: [{ minutes, label }] },
        mark: {
          type: 'text',
          baseline: 'bottom',
          align: i === 0 ? 'right' : i === marks.length - 1 ? 'left' : 'center',
          dy: i === 0 || i === marks.length - 1 ? -3 : -16,
          color: GREY,
          fontSize: 11,
        },
        encoding: { x: { field: 'minutes', ...x }, y: { value: 0 }, text: { field: 'label' } },
      })),
    ],
  });
}
