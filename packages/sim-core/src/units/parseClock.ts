/**
 * A time of day such as `10:00` or `9:30`, as seconds after midnight; undefined when it is none.
 *
 * @example
 * [parseClock('9:30'), parseClock('25:00')] // => [34200, undefined]
 */
export function parseClock(text: string): number | undefined {
  const match = /^(\d{1,2}):(\d{2})$/.exec(text.trim());
  if (match === null) return undefined;
  const hours = Number(match[1]);
  const minutes = Number(match[2]);
  return hours < 24 && minutes < 60 ? hours * 3600 + minutes * 60 : undefined;
}
