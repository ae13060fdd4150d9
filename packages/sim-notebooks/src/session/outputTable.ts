import { output } from '../display/index.js';
import { type Cell, escapeHtml, htmlTable } from '../report/index.js';

/** Longer than this is no figure but a sentence, letters. */
const FIGURE = 30;

/** Shows a table as one output: a thousand lines one by one would be lost on the way to the browser. */
export function outputTable(
  title: string,
  head: readonly string[],
  rows: readonly (readonly (string | Cell)[])[],
): void {
  const plain = rows.map((row) => row.map((cell) => (typeof cell === 'string' ? cell : textOf(cell))));
  const toTheLeft = (i: number): boolean => i === 0 || plain.some((row) => (row[i]?.length ?? 0) > FIGURE);
  output({
    'text/html': `<strong>${escapeHtml(title)}</strong>${htmlTable(head, rows, title, toTheLeft)}`,
    'text/plain': `${title}\n${inColumns([head, ...plain], toTheLeft)}`,
  });
}

function textOf({ text, note }: Cell): string {
  return note === undefined ? text : `${text} (${note})`;
}

/** Columns as wide as their widest cell; names and sentences to the left, figures to the right. */
function inColumns(rows: readonly (readonly string[])[], toTheLeft: (column: number) => boolean): string {
  const widths = (rows[0] ?? []).map((_, i) =>
    rows.reduce((most, row) => Math.max(most, row[i]?.length ?? 0), 0),
  );
  return rows
    .map((row) =>
      row
        .map((cell, i) => (toTheLeft(i) ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0)))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
