import type { Estimate, KindName } from '@lapwright/sim-core';
import type { PairRow } from '../rows/index.js';
import { BLUE, CHART_HEIGHT, CHART_WIDTH, INK, ORANGE, SKY } from '../theme/index.js';
import { type ChartSpec, chartSpec } from './chartSpec.js';
import { pictureAxis, titled } from './pictureAxis.js';

/** Show by show, after minus before: a dot for each pair, a line for the mean with its interval, a line at no difference. */
export function pairsChart(
  rows: readonly PairRow[],
  options: {
    readonly description: string;
    readonly title: string;
    readonly kind: KindName;
    readonly difference: Estimate;
  },
): ChartSpec {
  const { description, title, kind, difference } = options;
  const { mean, low, high } = difference;
  const most = [...rows.map((row) => row.difference), mean ?? 0, low ?? 0, high ?? 0].reduce(
    (high, value) => Math.max(high, Math.abs(value)),
    0,
  );
  const { divide, unit, format } = pictureAxis(kind, most);
  const last = rows.at(-1)?.show ?? 0;
  const x = {
    type: 'quantitative',
    title: 'number of the show',
    scale: { domain: [-1, last + 1], nice: false, zero: false },
    axis: { grid: false, tickMinStep: 1, tickCount: 10 },
  };
  const y = { type: 'quantitative', title: titled(title, unit), axis: { tickCount: 6, ...format } };
  const across = (value: number, mark: ChartSpec): ChartSpec => ({
    data: { values: [{ value: value / divide }] },
    mark: { type: 'rule', ...mark },
    encoding: { y: { field: 'value', ...y } },
  });
  return chartSpec(description, {
    width: CHART_WIDTH,
    height: CHART_HEIGHT,
    layer: [
      ...(low === null || high === null
        ? []
        : [
            {
              data: { values: [{ low: low / divide, high: high / divide }] },
              mark: { type: 'rect', color: SKY, opacity: 0.45 },
              encoding: { y: { field: 'low', ...y }, y2: { field: 'high' } },
            },
          ]),
      across(0, { color: INK }),
      {
        data: {
          values: rows.map((row) => ({ show: row.show, difference: row.difference / divide })),
        },
        mark: { type: 'point', filled: true, size: 35, color: BLUE, opacity: 0.8 },
        encoding: { x: { field: 'show', ...x }, y: { field: 'difference', ...y } },
      },
      ...(mean === null ? [] : [across(mean, { color: ORANGE, strokeWidth: 2 })]),
    ],
  });
}
