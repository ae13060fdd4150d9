/**
 * Text made safe for HTML, in content and in quoted attributes.
 *
 * @example
 * escapeHtml('<b> & "x"') // => '&lt;b&gt; &amp; &quot;x&quot;'
 */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (letter) => ESCAPES[letter] ?? letter);
}

/** Escaped text in which a number and its unit stay on one line. */
function prose(text: string): string {
  return escapeHtml(text).replace(/(\d) (?=(?:%|bps|s|min|h|balls)(?![\w]))/g, '$1&nbsp;');
}

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Paragraphs. */
export function paragraphs(items: readonly string[]): string {
  return items.map((item) => `<p>${prose(item)}</p>`).join('\n');
}

/** A list of points. */
export function points(items: readonly string[]): string {
  return `<ul>${items.map((item) => `<li>${prose(item)}</li>`).join('')}</ul>`;
}

/** A cell of a table: its text, and a note in small type below it. */
export interface Cell {
  readonly text: string;
  readonly note?: string;
}

/**
 * A table; all cells are text, the first of each row names it.
 *
 * @param toTheLeft whether a column stands to the left whatever the page says; not given, the page decides
 */
export function htmlTable(
  head: readonly string[],
  rows: readonly (readonly (string | Cell)[])[],
  label: string,
  toTheLeft: (column: number) => boolean = () => false,
): string {
  const style = (i: number): string => (toTheLeft(i) ? ' style="text-align:left"' : '');
  const inner = (cell: string | Cell): string => {
    const { text, note } = typeof cell === 'string' ? { text: cell } : cell;
    return note === undefined
      ? escapeHtml(text)
      : `${escapeHtml(text)}<br><small>${escapeHtml(note)}</small>`;
  };
  const headRow = head.map((cell, i) => `<th scope="col"${style(i)}>${escapeHtml(cell)}</th>`).join('');
  const body = rows
    .map(
      (row) =>
        `<tr>${row.map((cell, i) => (i === 0 ? `<th scope="row"${style(i)}>${inner(cell)}</th>` : `<td${style(i)}>${inner(cell)}</td>`)).join('')}</tr>`,
    )
    .join('\n');
  return `<div class="scroll"><table aria-label="${escapeHtml(label)}"><thead><tr>${headRow}</tr></thead><tbody>\n${body}\n</tbody></table></div>`;
}

/** A table of a report, drawn from its data. */
export function tableHtml({ label, head, rows }: TableData): string {
  return htmlTable(head, rows, label);
}

/** A table of a report as data. */
export interface TableData {
  readonly label: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly (string | Cell)[])[];
}

/** A picture with its caption, which is also its text alternative, and tables below it. */
export function htmlFigure(
  figure: {
    readonly id: string;
    readonly title: string;
    readonly caption: string;
    readonly tables?: readonly TableData[];
  },
  svg: string | undefined,
): string {
  const { id, title, caption, tables = [] } = figure;
  const below = tables.map(({ head, rows, label }) => `\n${htmlTable(head, rows, label)}`).join('');
  const picture =
    svg === undefined
      ? ''
      : `<p class="wide">Swipe the picture sideways to see all of it.</p><div class="picture" role="img" aria-label="${escapeHtml(caption)}">${svg}</div>`;
  return `<section id="${id}"><h2>${escapeHtml(title)}</h2><figure>${picture}<figcaption>${prose(caption)}</figcaption></figure>${below}</section>`;
}

/** A whole page of a report. */
export function htmlPage(title: string, body: string): string {
  return htmlDocument(title, `<main>\n${body}\n</main>`, STYLE);
}

/** A whole page that needs nothing from outside: the policy forbids every request. */
export function htmlDocument(title: string, body: string, style: string): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escapeHtml(title)}</title>
<style>${style}</style>
</head>
<body>
${body}
</body>
</html>
`;
}

const STYLE = `
:root { color-scheme: light; }
body { margin: 0; background: #fff; color: #222; font: 16px/1.5 Arial, Helvetica, 'Liberation Sans', sans-serif; }
main { max-width: 60rem; margin: 0 auto; padding: 1.5rem 1rem 3rem; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 .25rem; }
h2 { font-size: 1.2rem; margin: 2.2rem 0 .5rem; }
p { margin: .4rem 0; }
.lead p { font-size: 1.08rem; }
.todo { border-left: .3rem solid #D55E00; padding: .2rem 0 .2rem 1rem; margin: 1rem 0; }
.todo h2 { margin-top: .2rem; }
.note { color: #444; font-size: .92rem; }
ul { margin: .4rem 0; padding-left: 1.3rem; }
li { margin: .3rem 0; }
figure { margin: 0; }
figcaption { margin-top: .5rem; }
figure + .scroll, .scroll + .scroll { margin-top: .8rem; }
.picture { overflow-x: auto; }
.picture svg { display: block; max-width: none; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; font-size: .82rem; font-variant-numeric: tabular-nums; }
small { color: #555; font-size: .85em; }
th, td { padding: .2rem .4rem; border-bottom: 1px solid #ddd; text-align: right; vertical-align: top; }
th:first-child, td:first-child { text-align: left; }
thead th { border-bottom: 2px solid #888; vertical-align: bottom; }
tbody th { font-weight: normal; white-space: nowrap; }
td { white-space: nowrap; }
.story th, .story td { text-align: left; }
.story td { white-space: normal; }
code { font: .92em 'DejaVu Sans Mono', Consolas, monospace; overflow-wrap: anywhere; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .25rem 1rem; }
dt { color: #444; }
dd { margin: 0; overflow-wrap: anywhere; }
.wide { display: none; color: #444; font-size: .85rem; }
@media (max-width: 52rem) {
  .wide { display: block; }
  .picture svg { width: max(100%, 36rem); height: auto; }
}
@page { size: A4; margin: 12mm; }
@media print {
  body { font-size: 10pt; }
  main { max-width: none; padding: 0; }
  .scroll, .picture { overflow: visible; }
  .picture svg { width: 100%; height: auto; max-height: 250mm; }
  table { font-size: 7pt; }
  th, td { padding: 1pt 2pt; }
  figure, tr, .todo { break-inside: avoid; }
  h2 { break-after: avoid; }
  .wide { display: none; }
}
`;
