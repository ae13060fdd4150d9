import type { IntervalsPicture } from '@lapwright/sim-core';
import { BLUE, CHART_WIDTH, GREY, INK, LINE_HEIGHT, ORANGE } from '../theme/index.js';
import { type ChartSpec, chartSpec } from './chartSpec.js';
import { pictureAxis, titled } from './pictureAxis.js';

/** A line for each row: a dot for the mean, a bar for the interval, and lines across at marked values. */
export function intervalsChart(picture: IntervalsPicture): ChartSpec {
  const { rows, lines, axis, kind, caption } = picture;
  const values = [
    ...rows.flatMap(({ mean, low, high }) => [mean, low, high]),
    ...lines.map(({ value }) => value),
  ];
  const { divide, unit, format } = pictureAxis(
    kind,
    values.reduce((most, value) => Math.max(most, Math.abs(value)), 0),
  );
  const x = {
    type: 'quantitative',
    title: titled(axis, unit),
    scale: { zero: true },
    axis: { orient: 'top', tickCount: 8, ...format },
  };
  const longest = rows.reduce((most, { label }) => Math.max(most, label.length), 0);
  const y = {
    field: 'label',
    type: 'nominal',
    title: null,
    sort: rows.map(({ label }) => label),
    axis: { domain: false, ticks: false, grid: true, labelPadding: 8 },
  };
  return chartSpec(caption, {
    width: Math.max(300, CHART_WIDTH + 60 - 6.2 * longest),
    height: { step: LINE_HEIGHT + 6 },
    data: {
      values: rows.map(({ label, mean, low, high, chosen }) => ({
        label,
        chosen,
        mean: mean / divide,
        low: low / divide,
        high: high / divide,
      })),
    },
    layer: [
      ...lines.map(({ value }) => ({
        data: { values: [{ value: value / divide }] },
        mark: { type: 'rule', color: INK, strokeDash: value === 0 ? [1, 0] : [5, 3] },
        encoding: { x: { field: 'value', ...x } },
      })),
      {
        mark: { type: 'rule', color: GREY, strokeWidth: 2 },
        encoding: { y, x: { field: 'low', ...x }, x2: { field: 'high' } },
      },
      {
        mark: { type: 'point', filled: true, opacity: 1 },
        encoding: {
          y,
          x: { field: 'mean', ...x },
          color: {
            condition: { test: 'datum.chosen', value: ORANGE },
            value: BLUE,
          },
          shape: { condition: { test: 'datum.chosen', value: 'diamond' }, value: 'circle' },
          size: { condition: { test: 'datum.chosen', value: 90 }, value: 45 },
        },
      },
      ...lines
        .filter(({ label }) => label !== '')
        .map(({ value, label }, i) => ({
          data: { values: [{ value: value / divide, label }] },
          // Each in a row of its own: lines may stand close together.
          mark: { type: 'text', align: 'center', baseline: 'top', dy: 4 + 15 * i },
          encoding: { x: { field: 'value', ...x }, y: { value: 'height' }, text: { field: 'label' } },
        })),
    ],
  });
}
