import type { FloodRow } from '../rows/index.js';
import { CHART_WIDTH, LINE_HEIGHT, ORANGE } from '../theme/index.js';
import { type ChartSpec, chartSpec } from './chartSpec.js';
import { moduleChannel } from './moduleChannel.js';

/** How long each module may stand still before its basket runs over: a bar for each, the shortest first. */
export function floodClock(rows: readonly FloodRow[], options: { readonly description: string }): ChartSpec {
  return chartSpec(options.description, {
    width: CHART_WIDTH - 40,
    height: { step: LINE_HEIGHT + 4 },
    data: { values: rows },
    mark: { type: 'bar', color: ORANGE, height: { band: 0.6 } },
    encoding: {
      y: moduleChannel(
        rows.map(({ module }) => module),
        {},
      ),
      x: {
        field: 'minutes',
        type: 'quantitative',
        title: 'minutes from the stop until the basket runs over',
        axis: { tickCount: 8 },
      },
    },
  });
}
