import type { Estimate } from '../statistics/index.js';
import type { AnswerTable } from './answer.js';
import { measureWords } from './measureWords.js';

/** Measures that are told besides the one that decides, with heads short enough for a column. */
const HEADS: Readonly<Record<string, string>> = {
  throughput_bps: 'passing',
  spills_per_hour: 'spilled',
  spill_hour_share: 'hours with a spill',
  loop_time_s: 'loop time',
  minders_busy_share: 'minders busy',
};

/** As many measures with their intervals as fit the width of a terminal. */
const IN_ONE_TABLE = 2;

/** One of the things that are compared: its name in the table, and what was measured of it. */
interface Row {
  readonly name: string;
  readonly measures: readonly { readonly measure: string; readonly estimate: Estimate }[];
}

/**
 * What else changes: the other measures in which anything was seen, with their intervals; the rest stands in the JSON.
 *
 * @param head of the column of names
 * @param on the measure that decides, which has a table of its own
 * @example
 * otherMeasures('spares', [], 'spills_per_hour') // => []
 */
export function otherMeasures(head: string, rows: readonly Row[], on: string): AnswerTable[] {
  const estimateOf = ({ measures }: Row, id: string): Estimate | undefined =>
    measures.find(({ measure }) => measure === id)?.estimate;
  const ids = Object.keys(HEADS).filter(
    (id) => id !== on && rows.some((row) => (estimateOf(row, id)?.mean ?? 0) !== 0),
  );
  const tables = Array.from({ length: Math.ceil(ids.length / IN_ONE_TABLE) }, (_, i) =>
    ids.slice(IN_ONE_TABLE * i, IN_ONE_TABLE * (i + 1)),
  );
  return tables.map((some, i) => ({
    title: i === 0 ? 'What else changes, with 95 % intervals' : 'And besides',
    head: [head, ...some.map((id) => HEADS[id] ?? '')],
    rows: rows.map((row) => [
      row.name,
      ...some.map((id) => {
        const estimate = estimateOf(row, id);
        return estimate === undefined ? '' : measureWords(id).brief(estimate);
      }),
    ]),
  }));
}
