import type { Picture } from '@lapwright/sim-core';
import type { ChartSpec } from './chartSpec.js';
import { intervalsChart } from './intervalsChart.js';
import { ordersChart } from './ordersChart.js';
import { pointsChart } from './pointsChart.js';
import { sweepChart } from './sweepChart.js';

/**
 * The chart of a picture of an answer.
 *
 * @example
 * pictureChart({ shape: 'orders', id: 'order', title: 'Order', caption: 'Two orders.', before: ['a', 'b'], after: ['b', 'a'], moved: ['a'] }).description // => 'Two orders.'
 */
export function pictureChart(picture: Picture): ChartSpec {
  switch (picture.shape) {
    case 'intervals':
      return intervalsChart(picture);
    case 'ribbon':
      return sweepChart(picture);
    case 'points':
      return pointsChart(picture);
    case 'orders':
      return ordersChart(picture);
  }
}
