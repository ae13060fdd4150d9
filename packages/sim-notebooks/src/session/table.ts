import { formatNumber, formatSeconds, formatShare, roughCut } from '@lapwright/sim-core';
import { figuresTable, modulesTable, type TableData } from '../report/index.js';
import { Loop } from './loop.js';
import { outputTable } from './outputTable.js';
import { plainly } from './plainly.js';
import { Reply } from './reply.js';
import { Run } from './run.js';
import { SideBySide } from './sideBySide.js';
import { Story } from './story.js';

/** Rows of a table of your own: the names of the fields become its head. */
export type OwnRows = readonly Readonly<Record<string, string | number | boolean | null>>[];

/**
 * Shows numbers as a table: of a run all figures and then module by module, of an answer its tables, of a replay every line
 * of the story, of a loop its modules. Rows of your own work too: `table([{ charge: 600, spilled: 12 }])`.
 *
 * @example
 * table([{ charge: 600, spilled: 12 }, { charge: 650, spilled: 31 }]) // => undefined
 */
export function table(what: Run | Reply | Story | SideBySide | Loop | OwnRows): void {
  plainly(() => {
    for (const { label, head, rows } of tablesOf(what)) outputTable(label, head, rows);
  });
}

function tablesOf(what: Run | Reply | Story | SideBySide | Loop | OwnRows): readonly TableData[] {
  if (what instanceof Run) {
    const { result, loop } = what;
    return [figuresTable(result, loop.scenario), modulesTable(result, loop.scenario)];
  }
  if (what instanceof Reply)
    return what.answer.tables.map(({ title, head, rows }) => ({ label: title, head, rows }));
  if (what instanceof SideBySide) return [what.table()];
  if (what instanceof Story)
    return [
      {
        label: 'What happened',
        head: ['when', 'what'],
        rows: what.lines.map(({ clock, text }) => [clock, text]),
      },
    ];
  return [what instanceof Loop ? loopTable(what) : ownTable(what)];
}

function loopTable({ name, scenario }: Loop): TableData {
  const { spec } = scenario;
  return {
    label: name,
    head: [
      'module',
      'basket holds',
      'balls at once',
      'balls per second',
      'stops per hour',
      'running',
      'floods after',
    ],
    rows: roughCut(spec).modules.map((rough, m) => {
      const { basket, batch } = spec.modules[m] ?? {};
      const { floodsAfterSeconds: floods } = rough;
      return [
        rough.id,
        formatNumber(basket?.capacity ?? NaN),
        formatNumber(batch ?? NaN),
        formatNumber(rough.capacityBps),
        formatNumber(rough.stopsPerHour),
        formatShare(rough.availability),
        floods === Infinity ? 'never' : formatSeconds(floods),
      ];
    }),
  };
}

function ownTable(rows: OwnRows): TableData {
  const head = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const cell = (value: string | number | boolean | null | undefined): string =>
    value === undefined || value === null
      ? ''
      : typeof value === 'number'
        ? formatNumber(value, { digits: 6 })
        : String(value);
  return { label: '', head, rows: rows.map((row) => head.map((name) => cell(row[name]))) };
}
