import type { Estimate, ModuleEstimates, RunResult } from '@lapwright/sim-core';

/** A figure of one module with its interval. */
export interface ModuleRow {
  readonly module: string;
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

/** One figure of every module, in loop order; modules without it are left out. */
export function moduleRows(
  result: RunResult,
  figure: (module: ModuleEstimates) => Estimate | null,
): ModuleRow[] {
  return result.modules.flatMap((module) => {
    const estimate = figure(module);
    if (estimate === null || estimate.mean === null) return [];
    const { mean, low, high } = estimate;
    // Without an interval the bar has no length.
    return [{ module: module.id, mean, low: low ?? mean, high: high ?? mean }];
  });
}

/** The rows with the highest means, highest first, at most `most`, leaving out those at zero. */
export function highest(rows: readonly ModuleRow[], most: number): ModuleRow[] {
  return rows
    .filter(({ mean }) => mean > 0)
    .toSorted((a, b) => b.mean - a.mean)
    .slice(0, most);
}
