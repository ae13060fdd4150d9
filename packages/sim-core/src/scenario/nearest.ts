import { distance } from 'fastest-levenshtein';

/**
 * The known name nearest to what was written, if it is near enough to be meant: a third of its letters wrong at most, or
 * the same letters in another order.
 *
 * @example
 * [nearest('bascket', ['basket', 'batch', 'cycle']), nearest('lfit', ['lift']), nearest('x', ['a'])] // => ['basket', 'lift', undefined]
 */
export function nearest(written: string, known: readonly string[]): string | undefined {
  const plain = written.toLowerCase().replaceAll(/[\s-]/g, '_').slice(0, 100);
  let best: string | undefined;
  let bestDistance = Infinity;
  for (const name of known) {
    const d = sortedLetters(name) === sortedLetters(plain) ? 0.5 : distance(plain, name.toLowerCase());
    if (d < bestDistance) {
      best = name;
      bestDistance = d;
    }
  }
  return best !== undefined && bestDistance <= Math.floor((best.length + 1) / 3) ? best : undefined;
}

function sortedLetters(text: string): string {
  return [...text.toLowerCase()].toSorted().join('');
}

/** "Did you mean basket?" when something is near, otherwise the list of what is known. */
export function suggest(written: string, known: readonly string[]): string {
  const near = nearest(written, known);
  if (near !== undefined) return `Did you mean ${near}?`;
  const shown = known.slice(0, 20).join(', ');
  return `Known here: ${shown}${known.length > 20 ? ` and ${known.length - 20} more` : ''}.`;
}
