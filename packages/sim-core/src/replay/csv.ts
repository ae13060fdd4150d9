/**
 * A table as CSV text after RFC 4180: cells with commas, quotes or line ends in quotes, lines ended by CR LF.
 *
 * A text that a spreadsheet would take for a formula gets an apostrophe in front.
 *
 * @example
 * csvTable(['a', 'b'], [['=1+1', 2], ['say "hi"', undefined]]) // => 'a,b\r\n\'=1+1,2\r\n"say ""hi""",\r\n'
 */
export function csvTable(
  head: readonly string[],
  rows: readonly (readonly (string | number | undefined)[])[],
): string {
  return [head, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('');
}

function cell(value: string | number | undefined): string {
  if (value === undefined) return '';
  if (typeof value === 'number') return String(value);
  const harmless = /^[=+\-@\t\r\n]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}
