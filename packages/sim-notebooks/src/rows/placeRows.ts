import type { PLACES, RunResult, Scenario } from '@lapwright/sim-core';
import { sliceHours } from './timeRows.js';

/** A kind of place that balls can be in. */
export type Place = (typeof PLACES)[number];

/** Balls in one kind of place at the end of a slice. */
export interface PlaceRow {
  readonly hour: number;
  readonly place: string;
  readonly order: number;
  readonly balls: number;
}

/** The kinds of places in the order and words of the charts. */
export const PLACE_WORDS: readonly { readonly key: Place; readonly words: string }[] = [
  { key: 'baskets', words: 'in baskets' },
  { key: 'mechanisms', words: 'in mechanisms' },
  { key: 'run_outs', words: 'on run-outs' },
  { key: 'chutes', words: 'on chutes that lead back' },
  { key: 'floor', words: 'on the floor' },
  { key: 'box', words: 'in the box' },
  { key: 'lost', words: 'lost' },
];

/** Where the balls are over the show, from the opening on: then all are in baskets and in the box. */
export function placeRows(result: RunResult, scenario: Scenario, places: readonly Place[]): PlaceRow[] {
  const hours = sliceHours(result);
  const at = (hour: number, balls: (key: Place) => number): PlaceRow[] =>
    PLACE_WORDS.flatMap(({ key, words }, order) =>
      places.includes(key) ? [{ hour, place: words, order, balls: balls(key) }] : [],
    );
  const atFirst: Partial<Record<Place, number>> = {
    baskets: result.scenario.charge_balls,
    box: scenario.spec.crew.topUp?.box ?? 0,
  };
  return [
    ...at(hours[0]?.from ?? 0, (key) => atFirst[key] ?? 0),
    ...hours.flatMap(({ to }, k) => at(to, (key) => result.series.balls_by_place[key][k]?.mean ?? 0)),
  ];
}
