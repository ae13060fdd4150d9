import type { LevelRow } from '../rows/index.js';
import { AMOUNT_SCHEME, CHART_WIDTH, LINE_HEIGHT } from '../theme/index.js';
import { type ChartSpec, chartSpec } from './chartSpec.js';
import { moduleChannel } from './moduleChannel.js';
import { closingLines, type ShowHours, timeChannel } from './timeAxis.js';

/** The map of basket levels: a line for each module in loop order, time from left to right, darker where fuller. */
export function levelMap(
  rows: readonly LevelRow[],
  options: {
    readonly description: string;
    readonly hours: ShowHours;
    readonly modules: readonly string[];
    /** Levels are shares of the capacity (true) or balls. */
    readonly shares: boolean;
  },
): ChartSpec {
  const { description, hours, modules, shares } = options;
  const colour = {
    field: 'level',
    type: 'quantitative',
    // The square root spreads the low levels, where averages lie, over more of the colours.
    scale: { type: 'sqrt', scheme: AMOUNT_SCHEME, ...(shares && { domain: [0, 1] }) },
  };
  const legend = {
    orient: 'top',
    gradientLength: 320,
    ...(shares && { format: '.0%', values: [0, 0.05, 0.2, 0.5, 1] }),
  };
  return chartSpec(description, {
    width: CHART_WIDTH,
    height: { step: LINE_HEIGHT },
    layer: [
      {
        data: { values: rows },
        // Cells reach a little under the next one: edges that only touch leave hairlines.
        transform: [{ calculate: `min(datum.to + 0.2 * (datum.to - datum.from), ${hours.to})`, as: 'under' }],
        // No text for each of thousands of cells; the caption stands for them.
        mark: { type: 'rect', aria: false },
        encoding: {
          x: timeChannel('from', hours),
          x2: { field: 'under' },
          y: moduleChannel(modules, { domain: false }),
          color: { ...colour, title: shares ? 'how full, on average' : 'balls, on average', legend },
        },
      },
      ...closingLines(hours),
    ],
  });
}
