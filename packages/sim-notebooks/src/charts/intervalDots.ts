import type { ModuleRow } from '../rows/index.js';
import { BLUE, CHART_WIDTH, GREY, LINE_HEIGHT } from '../theme/index.js';
import { type ChartSpec, chartSpec } from './chartSpec.js';
import { moduleChannel } from './moduleChannel.js';

/** A figure of each module: a dot for the mean, a bar for the interval; in the order of the rows. */
export function intervalDots(
  rows: readonly ModuleRow[],
  options: { readonly description: string; readonly title: string; readonly percent: boolean },
): ChartSpec {
  const { description, title, percent } = options;
  const x = {
    type: 'quantitative',
    title,
    scale: { zero: true },
    axis: { orient: 'top', tickCount: 8, ...(percent && { format: percentFormat(rows) }) },
  };
  const y = moduleChannel(
    rows.map(({ module }) => module),
    { domain: false, grid: true, labelPadding: 8 },
  );
  return chartSpec(description, {
    width: CHART_WIDTH - 40,
    height: { step: LINE_HEIGHT },
    data: { values: rows },
    encoding: { y },
    layer: [
      {
        mark: { type: 'rule', color: GREY, strokeWidth: 2 },
        encoding: { x: { field: 'low', ...x }, x2: { field: 'high' } },
      },
      {
        mark: { type: 'point', filled: true, size: 45, color: BLUE, opacity: 1 },
        encoding: { x: { field: 'mean', ...x } },
      },
    ],
  });
}

/** Enough decimals that neighbouring ticks have different labels. */
function percentFormat(rows: readonly ModuleRow[]): string {
  const most = rows.reduce((high, row) => Math.max(high, row.high), 0);
  return most > 0.1 ? '.0%' : most > 0.01 ? '.1%' : '.2%';
}
