import type { TimeRow } from '../rows/index.js';
import { BLUE, CHART_HEIGHT, CHART_WIDTH, SKY } from '../theme/index.js';
import { type ChartSpec, chartSpec } from './chartSpec.js';
import { type ShowHours, timeChannel } from './timeAxis.js';

/** A figure over the day: a line, with its interval as a ribbon behind it. */
export function ribbonChart(
  rows: readonly TimeRow[],
  options: { readonly description: string; readonly title: string; readonly hours: ShowHours },
): ChartSpec {
  const { description, title, hours } = options;
  const y = { type: 'quantitative', scale: { zero: true }, axis: { tickCount: 6 } };
  return chartSpec(description, {
    width: CHART_WIDTH,
    height: CHART_HEIGHT,
    data: { values: rows },
    encoding: { x: timeChannel('hour', hours) },
    layer: [
      {
        mark: { type: 'area', color: SKY, opacity: 0.45 },
        encoding: { y: { field: 'low', title, ...y }, y2: { field: 'high' } },
      },
      {
        mark: { type: 'line', color: BLUE, strokeWidth: 2 },
        encoding: { y: { field: 'mean', title, ...y } },
      },
    ],
  });
}
