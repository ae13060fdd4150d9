import { PLACE_WORDS, type PlaceRow } from '../rows/index.js';
import { CHART_HEIGHT, CHART_WIDTH, FIVE_PARTS } from '../theme/index.js';
import { type ChartSpec, chartSpec } from './chartSpec.js';
import { type ShowHours, timeChannel } from './timeAxis.js';

/** Where the balls are over the day: stacked areas that add up to all balls. */
export function placesChart(
  rows: readonly PlaceRow[],
  options: { readonly description: string; readonly hours: ShowHours },
): ChartSpec {
  const { description, hours } = options;
  return chartSpec(description, {
    width: CHART_WIDTH,
    height: CHART_HEIGHT,
    data: { values: rows },
    mark: { type: 'area', stroke: 'white', strokeWidth: 0.5 },
    encoding: {
      x: timeChannel('hour', hours),
      y: { field: 'balls', type: 'quantitative', title: 'balls', stack: 'zero', axis: { tickCount: 6 } },
      color: {
        field: 'place',
        type: 'nominal',
        title: null,
        scale: { domain: PLACE_WORDS.map(({ words }) => words), range: FIVE_PARTS },
        legend: { orient: 'top', columns: 5 },
      },
      order: { field: 'order', type: 'quantitative' },
    },
  });
}
