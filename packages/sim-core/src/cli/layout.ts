/** Width of printed text: what fits a plain terminal. */
export const WIDTH = 80;

/** Breaks text into lines of at most `width` characters, with an indent before every line but the first. */
export function wrap(text: string, indent = '', width: number = WIDTH): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const room = width - (lines.length === 0 ? 0 : indent.length);
    if (line !== '' && line.length + 1 + word.length > room) {
      lines.push(line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  lines.push(line);
  return lines.join(`\n${indent}`);
}

/** A table with columns as wide as their widest cell; numbers to the right, the first column to the left. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = head.map((cell, i) => Math.max(cell.length, ...rows.map((row) => row[i]?.length ?? 0)));
  return [head, ...rows]
    .map((row) =>
      row
        .map((cell, i) => (i === 0 ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0)))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
