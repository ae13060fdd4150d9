import type { RibbonPicture } from '@lapwright/sim-core';
import { BLUE, CHART_HEIGHT, CHART_WIDTH, INK, ORANGE, SKY } from '../theme/index.js';
import { type ChartSpec, chartSpec } from './chartSpec.js';
import { pictureAxis, titled } from './pictureAxis.js';

/** A figure over what is varied: a line with its interval as a ribbon, marked levels, and the chosen value. */
export function sweepChart({ rows, lines, chosen, axis, kind, across, caption }: RibbonPicture): ChartSpec {
  const most = [...rows.map(({ high }) => high), ...lines.map(({ value }) => value)].reduce(
    (high, value) => Math.max(high, Math.abs(value)),
    0,
  );
  const least = [...rows.map(({ low }) => low), ...lines.map(({ value }) => value)].reduce(
    (low, value) => Math.min(low, value),
    most,
  );
  // What moves little on a high level would be a flat line above zero.
  const zero = least < 0.75 * most;
  const { divide, unit, format } = pictureAxis(kind, most, zero ? 0 : least);
  const end = rows.reduce((high, { x }) => Math.max(high, x), 0);
  const beside = across.kind === 'time' ? pictureAxis('time', end) : { divide: 1, unit: '' };
  const whole = rows.every((row) => Number.isInteger(row.x / beside.divide));
  const y = {
    type: 'quantitative',
    title: titled(axis, unit),
    scale: { zero },
    axis: { tickCount: 6, ...format },
  };
  const x = {
    type: 'quantitative',
    title: titled(across.title, beside.unit),
    scale: { zero: false, nice: false, padding: 8 },
    // There is no such thing as half a minder.
    axis: { grid: false, tickCount: 10, ...(whole && { tickMinStep: 1 }) },
  };
  return chartSpec(caption, {
    width: CHART_WIDTH,
    height: CHART_HEIGHT,
    data: {
      values: rows.map((row) => ({
        x: row.x / beside.divide,
        mean: row.mean / divide,
        low: row.low / divide,
        high: row.high / divide,
      })),
    },
    layer: [
      {
        mark: { type: 'area', color: SKY, opacity: 0.45 },
        encoding: { x: { field: 'x', ...x }, y: { field: 'low', ...y }, y2: { field: 'high' } },
      },
      {
        mark: { type: 'line', color: BLUE, strokeWidth: 2, point: { color: BLUE, size: 35 } },
        encoding: { x: { field: 'x', ...x }, y: { field: 'mean', ...y } },
      },
      ...lines.flatMap(({ value, label }) => [
        {
          data: { values: [{ value: value / divide }] },
          mark: { type: 'rule', color: INK, strokeDash: [5, 3] },
          encoding: { y: { field: 'value', ...y } },
        },
        {
          data: { values: [{ value: value / divide, label }] },
          mark: { type: 'text', align: 'right', baseline: 'bottom', dy: -3 },
          encoding: { x: { value: 'width' }, y: { field: 'value', ...y }, text: { field: 'label' } },
        },
      ]),
      ...(chosen === null
        ? []
        : [
            {
              data: { values: [{ x: chosen.value / beside.divide }] },
              mark: { type: 'rule', color: ORANGE, strokeWidth: 2 },
              encoding: { x: { field: 'x', ...x } },
            },
            {
              data: { values: [{ x: chosen.value / beside.divide, label: chosen.label }] },
              mark: { type: 'text', align: 'center', baseline: 'bottom', dy: -4, color: ORANGE },
              encoding: { x: { field: 'x', ...x }, y: { value: 0 }, text: { field: 'label' } },
            },
          ]),
    ],
  });
}
