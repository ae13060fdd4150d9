import type { PlaceRow } from '../rows/index.js';
import { CHART_HEIGHT, CHART_WIDTH } from '../theme/index.js';
import { type ChartSpec, chartSpec } from './chartSpec.js';
import { closingLines, type ShowHours, timeChannel } from './timeAxis.js';

/** A kind of place in the legend, from the bottom of the stack upwards. */
export interface PlaceKind {
  readonly words: string;
  readonly colour: string;
}

/** Where the balls are over the show: stacked areas, one for each kind of place. */
export function placesChart(
  rows: readonly PlaceRow[],
  options: { readonly description: string; readonly hours: ShowHours; readonly places: readonly PlaceKind[] },
): ChartSpec {
  const { description, hours, places } = options;
  return chartSpec(description, {
    width: CHART_WIDTH,
    height: CHART_HEIGHT,
    layer: [
      {
        data: { values: rows },
        mark: { type: 'area', stroke: 'white', strokeWidth: 0.5 },
        encoding: {
          x: timeChannel('hour', hours),
          y: { field: 'balls', type: 'quantitative', title: 'balls', stack: 'zero', axis: { tickCount: 6 } },
          color: {
            field: 'place',
            type: 'nominal',
            title: null,
            scale: { domain: places.map(({ words }) => words), range: places.map(({ colour }) => colour) },
            legend: { orient: 'top', columns: places.length > 5 ? 4 : 5 },
          },
          order: { field: 'order', type: 'quantitative' },
        },
      },
      ...closingLines(hours),
    ],
  });
}
