/**
 * A word as it can be typed into a shell.
 *
 * @example
 * [shellWord('my.yaml'), shellWord('my loop.yaml')] // => ['my.yaml', "'my loop.yaml'"]
 */
export function shellWord(word: string): string {
  return /^[\w./:-]+$/.test(word) ? word : `'${word.replaceAll("'", String.raw`'\''`)}'`;
}
