import { possibilities, type RunResult, type Scenario } from '@lapwright/sim-core';
import { placesChart, type ShowHours } from '../charts/index.js';
import { type Place, PLACE_WORDS, placeRows } from '../rows/index.js';
import { PLACE_COLOURS } from '../theme/index.js';
import { boxCaption, closingsNote, placesCaption } from '../words/index.js';
import type { Figure } from './figure.js';

/** Where the balls are: stacked areas of all places there are in the scenario. */
export function placesFigure(result: RunResult, scenario: Scenario, hours: ShowHours): Figure {
  const { chutes } = possibilities(scenario.spec);
  const box = scenario.spec.crew.topUp !== undefined;
  const places: Place[] = [
    'baskets',
    'mechanisms',
    'run_outs',
    ...(chutes ? (['chutes'] as const) : []),
    'floor',
    ...(box ? (['box'] as const) : []),
    'lost',
  ];
  return placesFigureOf(places, 'places', 'Where the balls are', placesCaption(result), {
    result,
    scenario,
    hours,
  });
}

/** The few balls beside the path, which the picture of all balls hardly shows: floor, box and lost. */
export function boxFigure(result: RunResult, scenario: Scenario, hours: ShowHours): Figure {
  const caption = `${boxCaption(result)}${closingsNote(result)}`;
  return placesFigureOf(['floor', 'box', 'lost'], 'topped-up', 'Balls lost and topped up', caption, {
    result,
    scenario,
    hours,
  });
}

function placesFigureOf(
  places: readonly Place[],
  id: string,
  title: string,
  caption: string,
  { result, scenario, hours }: { result: RunResult; scenario: Scenario; hours: ShowHours },
): Figure {
  const kinds = PLACE_WORDS.flatMap(({ key, words }) =>
    places.includes(key) ? [{ words, colour: PLACE_COLOURS[key] }] : [],
  );
  return {
    id,
    title,
    caption,
    spec: placesChart(placeRows(result, scenario, places), { description: caption, hours, places: kinds }),
  };
}
