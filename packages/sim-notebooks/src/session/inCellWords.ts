/**
 * Advice of the command line in the words of a cell: options without dashes, as they stand between braces, and a command as
 * its verb.
 *
 * @example
 * inCellWords('Write --at 10min, or --values 400,500.') // => "Write at: '10min', or values: [400, 500]."
 * @example
 * inCellWords('About --replications 240 would decide it, or --at-most 900.') // => 'About replications: 240 would decide it, or atMost: 900.'
 */
export function inCellWords(text: string): string {
  const verbs = text.replaceAll(
    /how-many FILE ([\w-]+(?: [\w-]+|(?:\.[\w-]+)+)?)/g,
    (_, thing: string) => `howMany(loop, '${thing}')`,
  );
  return verbs.replaceAll(
    /--([a-z][a-z-]*)(?: (\d(?:[\w.,]*\w)?))?/g,
    (_, name: string, value: string | undefined) =>
      name.replaceAll(/-([a-z])/g, (__, letter: string) => letter.toUpperCase()) +
      (value === undefined ? '' : `: ${written(value)}`),
  );
}

/** A value as code: several numbers as a list, what has a unit as a text. */
function written(value: string): string {
  if (value.includes(',')) return `[${value.replaceAll(',', ', ')}]`;
  return /[a-z]/i.test(value) ? `'${value}'` : value;
}
