import type { Row } from './check.js';
import { publishedSection } from './published.js';

const HEADINGS = [
  'quantity',
  'exact value',
  'expected',
  'simulated',
  'standard error',
  'z',
  'replications x seconds',
  'remark',
] as const;

/**
 * The rows of one section as a page in Markdown: a table for each case, under its published source. The column
 * "expected" is filled where something else than the exact value itself is compared; the remark says what.
 */
export function sectionPage(section: number, rows: readonly Row[]): string {
  const parts = [
    `# Reference checks, section ${section}`,
    'Exact values are computed from the formulas of the sources named; "\\[from memory]" marks a citation that was not ' +
      'looked up again.',
  ];
  for (const { id, title, description, sources, values } of publishedSection(section)) {
    parts.push(`## ${id}: ${title}`);
    if (description !== '') parts.push(plainText(description));
    parts.push(`Source: ${plainText(sources.join(' / '))}`);
    const order = values.map(({ name }) => name);
    const sorted = rows
      .filter(({ caseId }) => caseId === id)
      .sort((a, b) => order.indexOf(a.quantity) - order.indexOf(b.quantity));
    parts.push(table(sorted.map(cells)));
  }
  return `${parts.join('\n\n')}\n`;
}

function cells(row: Row): string[] {
  const { outcome, published, expected, remark } = row;
  const digits = outcome.kind === 'exact' ? 10 : 6;
  const stated = typeof published === 'number' ? significant(published, digits) : '';
  const quantity = [plainText(row.quantity), stated];
  switch (outcome.kind) {
    case 'sampled': {
      const { mean, standardError, z, runs } = outcome;
      const compared = published === expected ? '' : significant(expected, 6);
      const numbers = [significant(mean, 6), significant(standardError, 2), z.toFixed(2)];
      return [...quantity, compared, ...numbers, runs, plainText(remark)];
    }
    case 'exact':
      return [
        ...quantity,
        '',
        significant(outcome.value, digits),
        'exact',
        '',
        outcome.runs,
        plainText(remark),
      ];
    default:
      return [...quantity, '', '', '', '', '', `${outcome.kind}: ${plainText(remark)}`];
  }
}

function significant(value: number, digits: number): string {
  return String(Number(value.toPrecision(digits)));
}

/** Signs that Markdown would take for something else, replaced. */
function plainText(text: string): string {
  return text.replaceAll('|', 'given').replaceAll('*', '\\*').replaceAll('[', '\\[').replaceAll('_', '\\_');
}

/** Columns padded to equal width, as the formatter of this project would lay them out. */
function table(rows: readonly (readonly string[])[]): string {
  const all = [HEADINGS, ...rows];
  const widths = HEADINGS.map((_, column) =>
    all.reduce((width, row) => Math.max(width, (row[column] ?? '').length), 3),
  );
  const line = (row: readonly string[]): string =>
    `| ${widths.map((width, column) => (row[column] ?? '').padEnd(width)).join(' | ')} |`;
  const rule = `| ${widths.map((width) => '-'.repeat(width)).join(' | ')} |`;
  return [line(HEADINGS), rule, ...rows.map(line)].join('\n');
}
