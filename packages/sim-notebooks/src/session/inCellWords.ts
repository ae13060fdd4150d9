/**
 * Advice of the command line in the words of a cell: options without dashes, as they stand between braces.
 *
 * @example
 * inCellWords('About --replications 240 would decide it, or --at-most 900.') // => 'About replications: 240 would decide it, or atMost: 900.'
 */
export function inCellWords(text: string): string {
  return text.replaceAll(
    /--([a-z][a-z-]*)(?: (\d[\d.]*\d|\d))?/g,
    (_, name: string, value: string | undefined) =>
      name.replaceAll(/-([a-z])/g, (__, letter: string) => letter.toUpperCase()) +
      (value === undefined ? '' : `: ${value}`),
  );
}
