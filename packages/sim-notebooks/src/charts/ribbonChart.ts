import type { TimeRow } from '../rows/index.js';
import { BLUE, CHART_HEIGHT, CHART_WIDTH, SKY } from '../theme/index.js';
import { type ChartSpec, chartSpec } from './chartSpec.js';
import { closingLines, type ShowHours, timeChannel } from './timeAxis.js';

/** A figure over the show: a line, with its interval as a ribbon behind it. */
export function ribbonChart(
  rows: readonly TimeRow[],
  options: { readonly description: string; readonly title: string; readonly hours: ShowHours },
): ChartSpec {
  const { description, title, hours } = options;
  const y = { type: 'quantitative', scale: { zero: true }, axis: { tickCount: 6 } };
  const x = timeChannel('hour', hours);
  // A line of its own for each session: nothing joins the evening of one day to the morning of the next.
  const detail = { field: 'session', type: 'nominal' };
  return chartSpec(description, {
    width: CHART_WIDTH,
    height: CHART_HEIGHT,
    data: { values: rows },
    layer: [
      {
        mark: { type: 'area', color: SKY, opacity: 0.45 },
        encoding: { x, detail, y: { field: 'low', title, ...y }, y2: { field: 'high' } },
      },
      {
        mark: { type: 'line', color: BLUE, strokeWidth: 2 },
        encoding: { x, detail, y: { field: 'mean', title, ...y } },
      },
      ...closingLines(hours),
    ],
  });
}
