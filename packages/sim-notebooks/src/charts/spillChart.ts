import { SPILL_CAUSES, type SpillRow } from '../rows/index.js';
import { CHART_WIDTH, LINE_HEIGHT, THREE_PARTS } from '../theme/index.js';
import { type ChartSpec, chartSpec } from './chartSpec.js';
import { moduleChannel } from './moduleChannel.js';

/** Where balls fall and why: a bar for each module, parted by what was going on. */
export function spillChart(rows: readonly SpillRow[], options: { readonly description: string }): ChartSpec {
  return chartSpec(options.description, {
    width: CHART_WIDTH - 40,
    height: { step: LINE_HEIGHT + 4 },
    data: { values: rows },
    mark: { type: 'bar', stroke: 'white', strokeWidth: 0.5 },
    encoding: {
      y: moduleChannel([...new Set(rows.map(({ module }) => module))], {}),
      x: {
        field: 'ballsPerHour',
        type: 'quantitative',
        title: 'balls spilled per hour',
        axis: { tickCount: 8 },
      },
      color: {
        field: 'cause',
        type: 'nominal',
        title: 'spilled',
        scale: { domain: SPILL_CAUSES.map(({ words }) => words), range: THREE_PARTS },
        legend: { orient: 'top', columns: 1 },
      },
      order: { field: 'order', type: 'quantitative' },
    },
  });
}
