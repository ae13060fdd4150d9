import type { LogRow } from './logRow.js';
import type { ProblemList } from './problemList.js';

/** What a ball counter showed. */
export interface CounterReading {
  readonly at: number;
  /** Balls, as it showed. */
  readonly reading: number;
  /** Which run of the counter, from 0: the next begins where it was set back. Readings of one run never fall. */
  readonly run: number;
}

/**
 * The readings of a counter. Where they run back, as few of them as possible are left out so that the others rise.
 *
 * @param rows those of `counter` and `reset`, by rising time
 */
export function counterReadings(rows: readonly LogRow[], problems: ProblemList): CounterReading[] {
  const runs: LogRow[][] = [[]];
  for (const row of rows) {
    if (row.what === 'reset') runs.push([row]);
    else runs.at(-1)?.push(row);
  }
  return runs
    .filter((run, i) => i > 0 || run.length > 0)
    .flatMap((run, number) => {
      const rising = risingOf(run.map(({ count = 0 }) => count));
      return run.flatMap((row, i) => {
        if (!rising.has(i)) {
          problems.refuse(row, {
            code: 'counter_runs_back',
            rule: 'the counter runs back between this and the other readings',
            hint: 'If it was set back, write a row "reset" before it.',
          });
          return [];
        }
        row.fate = 'used';
        return [{ at: row.time, reading: row.count ?? 0, run: number }];
      });
    });
}

/**
 * Indexes of a longest part of a list that never falls.
 *
 * @example
 * [...risingOf([100, 1500, 180, 260, 250])].toSorted() // => [0, 2, 4]
 */
export function risingOf(values: readonly number[]): ReadonlySet<number> {
  // ends[k]: index of the smallest value that ends a rising part of k + 1 values (patience sorting).
  const ends: number[] = [];
  const before = new Int32Array(values.length).fill(-1);
  for (const [i, value] of values.entries()) {
    let low = 0;
    let high = ends.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((values[ends[middle] ?? 0] ?? 0) <= value) low = middle + 1;
      else high = middle;
    }
    if (low > 0) before[i] = ends[low - 1] ?? -1;
    ends[low] = i;
  }
  const rising = new Set<number>();
  for (let i = ends.at(-1) ?? -1; i >= 0; i = before[i] ?? -1) rising.add(i);
  return rising;
}
