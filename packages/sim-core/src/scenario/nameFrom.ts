/** Most characters of a name. */
const MOST = 40;
const BETWEEN = /[^\p{L}\p{N}_-]+/gu;

/**
 * The name in a scenario file that stands for what a person wrote; undefined when no letter and no digit is in it.
 *
 * @example
 * [nameFrom('ball stuck'), nameFrom('jam'), nameFrom('?')] // => ['ball-stuck', 'jam', undefined]
 */
export function nameFrom(said: string): string | undefined {
  const plain = said
    .normalize('NFC')
    .replace(BETWEEN, '-')
    .replace(/^[_-]+/, '');
  const short = [...plain].slice(0, MOST).join('');
  const name = short === said ? said : short.replace(/-+$/, '');
  return name === '' ? undefined : name;
}
