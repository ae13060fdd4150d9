import { formatSeconds, type RoughCut } from '@lapwright/sim-core';
import type { FloodRow } from '../rows/index.js';

/** How soon baskets run over when their module stops. */
export function floodCaption(rows: readonly FloodRow[], { modules }: RoughCut): string {
  const [first] = rows;
  if (first === undefined) return 'No basket here can run over because its own module stops.';
  const can = modules.filter(({ floodsAfterSeconds }) => floodsAfterSeconds < Infinity).length;
  const cut = can > rows.length ? ` The ${rows.length} soonest of ${can} are shown.` : '';
  const soonest =
    first.minutes === 0 ? 'is full already' : `runs over ${formatSeconds(60 * first.minutes)} after it stops`;
  return `How long a module may stand still before its basket runs over, when balls come as they usually do: that of ${first.module} ${soonest}. Reckoned without chance: after a crowd of balls it goes faster.${cut}`;
}
