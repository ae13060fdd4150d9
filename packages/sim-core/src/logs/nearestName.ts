import { distance } from 'fastest-levenshtein';

/**
 * A sentence that names the known name nearest to what was written, if it is near enough to be meant.
 *
 * @example
 * [nearestName('clared', ['cleared', 'counter']), nearestName('xyz', ['cleared'])] // => ['Did you mean cleared?', undefined]
 */
export function nearestName(written: string, known: readonly string[]): string | undefined {
  const plain = plainName(written).slice(0, 100);
  let best = '';
  let bestDistance = Infinity;
  for (const name of known) {
    const d = distance(plain, plainName(name));
    if (d < bestDistance) {
      best = name;
      bestDistance = d;
    }
  }
  return bestDistance <= Math.floor((best.length + 1) / 3) ? `Did you mean ${best}?` : undefined;
}

/**
 * A name as it is compared: `Lantern  Stairs`, `lantern_stairs` and `lantern-stairs` are one module.
 *
 * @example
 * plainName(' Lantern  Stairs') // => 'lantern-stairs'
 */
export function plainName(name: string): string {
  return name
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_-]+/g, '-');
}
