import { type Answer, firstAidWords, type FloodCard, type FloodLine } from '@lapwright/sim-core';
import { SHORT_CAUTIONS } from '../words/index.js';
import { escapeHtml, htmlDocument } from './html.js';

/** What the card is made from. */
export interface FloodCardInput {
  readonly card: FloodCard;
  readonly answer: Answer;
  /** The command that gives the same card again. */
  readonly command: string;
}

/** Sooner than this, seconds, a line is printed bold and marked. */
const SOON = 60;

/**
 * A card to print and lay on the table: module by module in the order of the loop, how soon its basket floods when it
 * stops, what to do first, and whose it is. One page for up to about fifty modules, on A4 or Letter, readable without
 * colour. The same input gives the same text.
 *
 * @example
 * const card = { modules: [], watched_s: 1800, from_s: 0, to_s: 3600, replications: 2, moments: 8 };
 * floodCardPage({ card, answer: exampleAnswer, command: 'lapwright flood-card a.yaml' }).startsWith('<!doctype html>') // => true
 */
export function floodCardPage({ card, answer, command }: FloodCardInput): string {
  const { modules, watched_s: watched, replications, moments } = card;
  const [scenario] = answer.scenarios;
  const name = scenario?.name ?? 'Loop';
  const rows = modules.map((line, m) => row(line, m + 1, watched)).join('\n');
  const head = ['', 'module', 'whose', '1 in 20', 'give or take', 'half', 'do first']
    .map((cell) => `<th scope="col">${cell}</th>`)
    .join('');
  const cautions = SHORT_CAUTIONS.map((caution) => `<li>${escapeHtml(caution)}</li>`).join('');
  const from = [
    scenario?.file ?? '',
    `${replications} simulated shows, ${moments} moments each, seed ${answer.seed}`,
    `lapwright ${answer.version}`,
    command,
  ];
  const body = `<main class="${modules.length > 34 ? 'many' : 'few'}">
<h1>${escapeHtml(name)}: if it stops now, its basket floods after</h1>
<p>Minutes:seconds from the moment it stops, if nobody does anything. <b>1 in 20</b>: plan with this, one basket in twenty
floods sooner; <b>give or take</b>: 95 % interval of that time. <b>half</b>: half of them do. <b>&#9632;</b> less than a minute. First: call the builder, switch it off,
then what stands here; a fuller basket floods sooner, so look at it.</p>
<table aria-label="How soon each basket floods"><thead><tr>${head}</tr></thead><tbody>
${rows}
</tbody></table>
<ul>${cautions}</ul>
<footer>${from.map((part) => escapeHtml(part)).join(' &middot; ')}</footer>
</main>`;
  return htmlDocument(`${name}: flood card`, body, STYLE);
}

function row(line: FloodLine, number: number, watched: number): string {
  const { id, title, builder = '', p05, p50 } = line;
  const soon = p05.mean !== null && p05.mean < SOON;
  const cells = [
    `${soon ? '&#9632; ' : ''}${clock(p05.mean, watched)}`,
    p05.mean === null ? '' : `<small>${limits(p05, watched)}</small>`,
    clock(p50.mean, watched),
    escapeHtml(firstAidWords(line)),
  ];
  const name =
    title === undefined || title === id
      ? escapeHtml(id)
      : `${escapeHtml(id)} <small>${escapeHtml(title)}</small>`;
  return `<tr${soon ? ' class="soon"' : ''}><td>${number}</td><th scope="row">${name}</th><td>${escapeHtml(builder)}</td>${cells.map((cell) => `<td>${cell}</td>`).join('')}</tr>`;
}

/** The interval of a time. */
function limits({ low, high }: FloodLine['p05'], watched: number): string {
  if (low === null && high === null) return 'reckoned';
  if (low === null) return `up to ${clock(high, watched)}`;
  return `${clock(low, watched)} to ${high === null ? 'later' : clock(high, watched)}`;
}

/** Minutes and seconds, cut off so that the card is never too late. */
function clock(seconds: number | null, watched: number): string {
  if (seconds === null) return `over ${Math.floor(watched / 60)} min`;
  const whole = Math.floor(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

const STYLE = `
:root { color-scheme: light; }
body { margin: 0; background: #fff; color: #000; font: 13px/1.3 Arial, Helvetica, 'Liberation Sans', sans-serif; }
main { max-width: 50rem; margin: 0 auto; padding: 1rem; }
h1 { font-size: 1.4em; line-height: 1.15; margin: 0 0 .2em; }
p { margin: .2em 0 .4em; }
table { width: 100%; border-collapse: collapse; font-variant-numeric: tabular-nums; }
th, td { text-align: left; padding: .12em .4em; border-bottom: 1px solid #999; overflow-wrap: anywhere; }
thead th { border-bottom: 2px solid #000; white-space: nowrap; }
tbody th { font-weight: bold; }
tbody th small { font-weight: normal; }
td:nth-child(1) { text-align: right; color: #333; }
td:nth-child(n+4):nth-child(-n+6), th:nth-child(n+4):nth-child(-n+6) { text-align: right; white-space: nowrap; }
td:nth-child(4) { font-weight: bold; }
.soon td, .soon th { border-bottom: 2px solid #000; }
tbody tr:nth-child(5n) td, tbody tr:nth-child(5n) th { border-bottom: 1.5px solid #000; }
ul { margin: .5em 0 .3em; padding-left: 1.2em; columns: 2; column-gap: 2em; }
li { break-inside: avoid; }
footer { font-size: .85em; color: #333; overflow-wrap: anywhere; }
@page { margin: 9mm; }
@media print {
  main { max-width: none; padding: 0; }
  .few { font-size: 9.5pt; }
  .many { font-size: 8.2pt; line-height: 1.2; }
  .many th, .many td { padding: .08em .4em; }
  .many ul, .many footer { font-size: .93em; }
  tr { break-inside: avoid; }
}
`;
