import { KINDS, listing, possibilities, type RunResult, type Scenario } from '@lapwright/sim-core';
import { ribbonChart, type ShowHours } from '../charts/index.js';
import { timeRows } from '../rows/index.js';
import { closingsNote, pullsCaption } from '../words/index.js';
import { estimateCell, nameCell } from './cells.js';
import type { Figure } from './figure.js';
import type { TableData } from './html.js';

/** Modules out of the loop over the show, and how they and their spares do while in it. */
export function pullsFigure(result: RunResult, scenario: Scenario, hours: ShowHours): Figure {
  const caption = `${pullsCaption(result)}${closingsNote(result)}`;
  const any = result.pulls_per_show.mean !== null && result.pulls_per_show.mean > 0;
  const spares = sparesTable(result, scenario);
  return {
    id: 'pulls',
    title: 'Out of the loop',
    caption,
    ...(any && {
      spec: ribbonChart(timeRows(result, result.series.pulled_modules), {
        description: caption,
        title: 'modules out of the loop',
        hours,
      }),
    }),
    tables: [pulledTable(result, scenario), ...(spares.rows.length > 0 ? [spares] : [])],
  };
}

/** The modules that can be pulled. */
function pulledTable(result: RunResult, scenario: Scenario): TableData {
  const { places } = possibilities(scenario.spec);
  return {
    label: 'Modules that can be taken out',
    head: ['module', 'taken out per show', 'time out of the loop', 'stops per hour in the loop'],
    rows: result.modules.flatMap((module, m) =>
      places[m]?.pulled === true
        ? [
            [
              nameCell(module),
              estimateCell(module.pulls_per_show, KINDS.plain),
              estimateCell(module.pulled_share, KINDS.share),
              estimateCell(module.stops_per_hour_in_loop, KINDS.plain),
            ],
          ]
        : [],
    ),
  };
}

function sparesTable(result: RunResult, scenario: Scenario): TableData {
  const modules = scenario.spec.modules;
  const standsInFor = (s: number): string =>
    listing(modules.flatMap(({ id, pull }) => (pull?.spares.includes(s) ? [id] : [])));
  return {
    label: 'Spares',
    head: [
      'spare',
      'can stand in for',
      'time in the loop',
      'stops per hour in the loop',
      'stopped, of all time',
    ],
    rows: result.spares.map((spare, s) => [
      nameCell(spare),
      standsInFor(s),
      estimateCell(spare.in_use_share, KINDS.share),
      estimateCell(spare.stops_per_hour_in_loop, KINDS.plain),
      estimateCell(spare.stopped_share, KINDS.share),
    ]),
  };
}
