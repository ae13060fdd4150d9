import type { RoughCut } from '@lapwright/sim-core';

/** How long a stop of one module may last. */
export interface FloodRow {
  readonly module: string;
  /** Minutes from the stop until its basket runs over, when balls come as they usually do. */
  readonly minutes: number;
}

/** The modules whose basket can run over, the soonest first, at most `most`. */
export function floodRows({ modules }: RoughCut, most: number): FloodRow[] {
  return modules
    .filter(({ floodsAfterSeconds }) => floodsAfterSeconds < Infinity)
    .map(({ id, floodsAfterSeconds }) => ({ module: id, minutes: floodsAfterSeconds / 60 }))
    .toSorted((a, b) => a.minutes - b.minutes)
    .slice(0, most);
}
