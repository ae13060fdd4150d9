/** Keys and positions in lists (from 0) from the top of a scenario file down to a value. */
export type DocumentPath = readonly (string | number)[];

/**
 * A path as messages write it.
 *
 * @example
 * pathText(['crew', 'shifts', 0, 'minders']) // => 'crew.shifts[0].minders'
 */
export function pathText(path: DocumentPath): string {
  return path.reduce<string>(
    (text, part) => (typeof part === 'number' ? `${text}[${part}]` : text === '' ? part : `${text}.${part}`),
    '',
  );
}
