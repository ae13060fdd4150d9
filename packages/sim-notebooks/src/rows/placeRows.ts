import type { RunResult } from '@lapwright/sim-core';
import { sliceHours } from './timeRows.js';

/** Balls in one kind of place at the end of a slice. */
export interface PlaceRow {
  readonly hour: number;
  readonly place: string;
  readonly order: number;
  readonly balls: number;
}

/** The kinds of places in the order and words of the chart. */
export const PLACE_WORDS = [
  { key: 'baskets', words: 'in baskets' },
  { key: 'mechanisms', words: 'in mechanisms' },
  { key: 'run_outs', words: 'on run-outs' },
  { key: 'floor', words: 'on the floor' },
  { key: 'lost', words: 'lost' },
] as const;

/** Where the balls are over the day, from the opening on: then all are in baskets. */
export function placeRows(result: RunResult): PlaceRow[] {
  const hours = sliceHours(result);
  const at = (hour: number, balls: (key: (typeof PLACE_WORDS)[number]['key']) => number): PlaceRow[] =>
    PLACE_WORDS.map(({ key, words }, order) => ({ hour, place: words, order, balls: balls(key) }));
  return [
    ...at(hours[0]?.from ?? 0, (key) => (key === 'baskets' ? result.scenario.charge_balls : 0)),
    ...hours.flatMap(({ to }, k) => at(to, (key) => result.series.balls_by_place[key][k]?.mean ?? 0)),
  ];
}
