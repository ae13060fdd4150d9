import type { ChartSpec } from './chartSpec.js';

/**
 * A line for each module, in this order from the top down.
 *
 * The order is given as the scale's domain: as a sort it would become one condition for each module, nested, which a long
 * loop and names such as "constructor" do not survive.
 */
export function moduleChannel(modules: readonly string[], axis: ChartSpec): ChartSpec {
  return {
    field: 'module',
    type: 'nominal',
    scale: { domain: modules },
    sort: null,
    title: null,
    axis: { ticks: false, ...axis },
  };
}
