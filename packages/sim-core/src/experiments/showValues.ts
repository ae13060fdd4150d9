import type { ReplicationResult } from '../model/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { MEASURES, measureIndex } from './measures.js';
import type { StopsReading, WatchReading } from './reading.js';

/**
 * What is measured of one module that a question watches, behind the measures of the show: its own stops, and the public
 * hours it stood in the loop.
 */
export const WATCHED: readonly {
  readonly id: string;
  readonly read: (result: ReplicationResult, module: number) => number;
}[] = [
  { id: 'watched_stops', read: ({ modules }, m) => modules.stops[m] ?? NaN },
  {
    id: 'watched_hours',
    read: ({ modules, measuredSeconds }, m) =>
      ((1 - (modules.pulledShare[m] ?? NaN)) * measuredSeconds) / 3600,
  },
];

/**
 * The values that a question reads of one show: all measures in their order, and behind them what else it asks for.
 *
 * @throws Error when the watched module is not in the loop
 */
export function showValues(
  spec: LoopSpec,
  reading: StopsReading | WatchReading | undefined,
  result: ReplicationResult,
): readonly number[] {
  const values = MEASURES.map(({ read }) => read(result));
  if (reading === undefined) return values;
  if (reading.kind === 'stops') return [...values, ...result.modules.stops];
  const m = spec.modules.findIndex(({ id }) => id === reading.module);
  if (m < 0) throw new Error(`no module of the loop is called ${reading.module}`);
  return [...values, ...WATCHED.map(({ read }) => read(result, m))];
}

/**
 * Where a value stands in the row of a show: a measure, or one of the watched module.
 *
 * @example
 * valueIndex('spills_per_hour') // => 1
 */
export function valueIndex(id: string): number {
  const watched = WATCHED.findIndex((value) => value.id === id);
  return watched < 0 ? measureIndex(id) : MEASURES.length + watched;
}
