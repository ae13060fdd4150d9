/** A line that may stand at the head of a log: `# module: lantern-stairs`. */
export interface HeadKey {
  readonly key: string;
  readonly doc: string;
}

/** The lines that the head of a log may have, before the names of the columns. */
export const HEAD_KEYS: readonly HeadKey[] = [
  { key: 'log', doc: 'bench or show. Without it: bench if the head names a module, show if not.' },
  { key: 'module', doc: 'The module all rows are about that name none.' },
  {
    key: 'modules',
    doc: 'Log of a show: all modules in the loop, with commas between; those that never stopped too.',
  },
  {
    key: 'spares',
    doc: 'Log of a show: modules on the side table, which are off the loop until a row "back".',
  },
  { key: 'builder', doc: 'Who built the module.' },
  { key: 'design', doc: 'The design it was built after, where several have built one.' },
  { key: 'batch', doc: 'Balls of a batch whose row has no count.' },
  { key: 'basket', doc: 'Balls its basket holds; levels may then be written in balls.' },
  { key: 'times', doc: 'clock or elapsed. Without it: elapsed if they are seconds or begin below 1:00.' },
  { key: 'day', doc: 'The day of the first row: 2, or 2026-05-02.' },
];

/** The head of a log as written, by key; empty text where nothing is written. */
export type LogHead = Readonly<Partial<Record<string, string>>>;

/** One line of the head: a key with its value, a comment, or a key that nothing reads. */
export type HeadLine =
  | { readonly kind: 'key'; readonly key: string; readonly value: string }
  | { readonly kind: 'comment' }
  | { readonly kind: 'unknown'; readonly key: string };

/**
 * True for a line that is a comment. What spreadsheets write for a value they could not reckon, such as `#REF!`, is none.
 *
 * @example
 * ['# module: old-mill', '"# a, b",,', '#REF!,stop', '10:00,stop'].map(isComment) // => [true, true, false, false]
 */
export function isComment(line: string): boolean {
  return /^[\s'"\ufeff]*#(?!(?:REF!|VALUE!|NAME\?|N\/A|DIV\/0!|NUM!|NULL!))/.test(line);
}

/** What spreadsheets add at the end of a comment line. */
const ADDED = ' \t,;"';

/**
 * Reads a comment line. Separators that a spreadsheet added at its end, and quote marks around it, are taken off.
 *
 * @example
 * [readHeadLine('# Module: lantern-stairs;;;'), readHeadLine('# 10 balls fell behind the table'), readHeadLine('# modul: a')] // => [{ kind: 'key', key: 'module', value: 'lantern-stairs' }, { kind: 'comment' }, { kind: 'unknown', key: 'modul' }]
 */
export function readHeadLine(line: string): HeadLine {
  const begun = line.replace(/^[\s'"\ufeff]*#+\s*/, '');
  let end = begun.length;
  while (end > 0 && ADDED.includes(begun.charAt(end - 1))) end--;
  const plain = begun.slice(0, end).replaceAll('""', '"');
  const [, key = '', value = ''] = /^([\p{L}_]+)\s*:\s*(.*)$/u.exec(plain) ?? [];
  if (key === '') return { kind: 'comment' };
  const known = HEAD_KEYS.find((one) => one.key === key.toLowerCase());
  return known === undefined
    ? { kind: 'unknown', key }
    : { kind: 'key', key: known.key, value: value.trim().replace(/^'|^"|"$/g, '') };
}
