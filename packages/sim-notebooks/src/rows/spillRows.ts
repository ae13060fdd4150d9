import type { RunResult } from '@lapwright/sim-core';

/** Spills of one module from one cause. */
export interface SpillRow {
  readonly module: string;
  /** Words for the cause. */
  readonly cause: string;
  /** Order of the causes in the chart. */
  readonly order: number;
  readonly ballsPerHour: number;
}

/** The causes of spills in the order and words of the chart. */
export const SPILL_CAUSES = [
  { key: 'module_stopped', words: 'while its own module stood still' },
  { key: 'backlog_of_stop', words: 'on the crowd its own stop had left' },
  { key: 'inflow', words: 'more came than it could take' },
] as const;

/** Spills by cause of the modules that spill most, most first. */
export function spillRows(result: RunResult, most: number): SpillRow[] {
  return result.modules
    .filter(({ spills_per_hour: spills }) => (spills.mean ?? 0) > 0)
    .toSorted((a, b) => (b.spills_per_hour.mean ?? 0) - (a.spills_per_hour.mean ?? 0))
    .slice(0, most)
    .flatMap(({ id, spills_by_cause_per_hour: causes }) =>
      SPILL_CAUSES.map(({ key, words }, order) => ({
        module: id,
        cause: words,
        order,
        ballsPerHour: causes[key].mean ?? 0,
      })),
    );
}
