/**
 * Names as they stand in a sentence; of many the first ones and how many more.
 *
 * @param most with more names than this the last ones are counted, not told @default 4
 * @example
 * [listing(['a']), listing(['a', 'b', 'c']), listing(['a', 'b', 'c', 'd', 'e', 'f'])] // => ['a', 'a, b and c', 'a, b, c and 3 more']
 */
export function listing(names: readonly string[], most = 4): string {
  if (names.length < 2) return names.join('');
  if (names.length > most)
    return `${names.slice(0, most - 1).join(', ')} and ${names.length - most + 1} more`;
  return `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
