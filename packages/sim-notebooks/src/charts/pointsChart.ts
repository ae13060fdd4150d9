import type { PointsPicture } from '@lapwright/sim-core';
import { BLUE, CHART_HEIGHT, GREY } from '../theme/index.js';
import { type ChartSpec, chartSpec } from './chartSpec.js';
import { pictureAxis, titled } from './pictureAxis.js';

/** Points in a square field, and the diagonal on which both axes say the same. */
export function pointsChart({ rows, axis, across, kind, caption }: PointsPicture): ChartSpec {
  const values = rows.flatMap(({ x, y }) => [x, y]);
  const most = values.reduce((high, value) => Math.max(high, value), 0);
  const least = values.reduce((low, value) => Math.min(low, value), most);
  const { divide, unit, format } = pictureAxis(kind, most, least);
  const scale = { domain: [least / divide, most / divide], zero: false };
  const x = { type: 'quantitative', title: titled(across, unit), scale, axis: { tickCount: 6, ...format } };
  const y = { type: 'quantitative', title: titled(axis, unit), scale, axis: { tickCount: 6, ...format } };
  const ends = [least, most].map((value) => ({ x: value / divide, y: value / divide }));
  return chartSpec(caption, {
    // Square, so that the diagonal is one.
    width: CHART_HEIGHT + 60,
    height: CHART_HEIGHT + 60,
    layer: [
      {
        data: { values: ends },
        mark: { type: 'line', color: GREY, strokeWidth: 1.5 },
        encoding: { x: { field: 'x', ...x }, y: { field: 'y', ...y } },
      },
      {
        data: { values: rows.map((row) => ({ x: row.x / divide, y: row.y / divide })) },
        mark: { type: 'point', filled: true, size: 30, color: BLUE, opacity: 0.7 },
        encoding: { x: { field: 'x', ...x }, y: { field: 'y', ...y } },
      },
    ],
  });
}
