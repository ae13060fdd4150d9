import type { LogTemplate } from '@lapwright/sim-core';
import { escapeHtml, htmlDocument } from './html.js';

/** Empty lines on a page. */
const LINES = 17;
/** Words of a bench, or of a show, that get a box to tick; the others are rare enough to be written. */
const BOXES: Readonly<Record<LogTemplate['kind'], readonly string[]>> = {
  bench: ['stop', 'cleared', 'break', 'resume'],
  show: ['stop', 'cleared', 'pulled', 'back', 'spill'],
};

/**
 * A sheet to print and fill in by hand: a clock column, boxes to tick for what happened, room for the rest. What is written
 * on it is typed into a log later, a line for a line. The same template gives the same text.
 *
 * @example
 * logSheet(logTemplate('show')).startsWith('<!doctype html>') // => true
 */
export function logSheet({ kind, head, columns, words }: LogTemplate): string {
  const boxes = BOXES[kind];
  const before = columns.slice(0, columns.indexOf('what'));
  const after = columns.slice(columns.indexOf('what') + 1);
  const heads = [...before, ...boxes, 'else', ...after].map(
    (name) => `<th scope="col" class="${escapeHtml(name)}">${escapeHtml(name)}</th>`,
  );
  const cells = [
    ...before.map((name) =>
      name === 'time' ? '<td class="time">:&nbsp;&nbsp;&nbsp;&nbsp;&nbsp;:</td>' : '<td></td>',
    ),
    ...boxes.map(() => '<td class="box">&#9744;</td>'),
    ...[...after, 'else'].map(() => '<td></td>'),
  ].join('');
  const title = kind === 'bench' ? 'Log of the bench' : 'Log of the show';
  const fields = [
    'date',
    'kept by',
    ...head.map(([key]) => key).filter((key) => key !== 'log' && key !== 'day'),
  ];
  const rare = words.filter(({ word }) => !boxes.includes(word) && word !== 'note' && word !== 'batch');
  const body = `<main>
<h1>${title}</h1>
<p class="fields">${fields.map((field) => `<span>${escapeHtml(field)}</span>`).join(' ')}</p>
<table aria-label="${title}"><thead><tr>${heads.join('')}</tr></thead><tbody>
${Array.from({ length: LINES }, () => `<tr>${cells}</tr>`).join('\n')}
</tbody></table>
<p>One line for each thing that happens; hours, minutes and seconds as well as you can. Under <b>else</b>:
${rare.map(({ word, doc }) => `<b>${word}</b> ${escapeHtml(doc.charAt(0).toLowerCase() + doc.slice(1).replace(/\.$/, ''))}`).join('; ')}.</p>
</main>`;
  return htmlDocument(title, body, STYLE);
}

const STYLE = `
:root { color-scheme: light; }
body { margin: 0; background: #fff; color: #000; font: 12px/1.3 Arial, Helvetica, 'Liberation Sans', sans-serif; }
main { max-width: 62rem; margin: 0 auto; padding: 1rem; }
h1 { font-size: 1.3em; margin: 0 0 .3em; }
.fields { display: flex; flex-wrap: wrap; gap: .5em 1.5em; margin: .2em 0 .8em; }
.fields span { border-bottom: 1px solid #000; min-width: 10em; padding-right: 6em; }
table { width: 100%; border-collapse: collapse; }
th, td { border: 1px solid #666; padding: .1em .3em; height: 1.9em; text-align: left; }
th { font-weight: bold; white-space: nowrap; height: auto; }
td.box { text-align: center; font-size: 1.2em; width: 3.6em; }
td.time { color: #555; white-space: nowrap; width: 7em; text-align: center; }
th.note { width: 18%; }
p { margin: .6em 0; }
@page { size: landscape; margin: 9mm; }
@media print { main { max-width: none; padding: 0; } tr { break-inside: avoid; } }
`;
