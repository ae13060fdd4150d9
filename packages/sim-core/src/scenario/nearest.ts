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

/** Other words for the same thing; each is suggested only where the right one is known. */
const OTHER_WORDS: Readonly<Record<string, readonly string[]>> = {
  balls: ['charge'],
  count: ['charge', 'balls'],
  people: ['minders'],
  staff: ['crew', 'minders'],
  team: ['crew'],
  length: ['lasts', 'depth'],
  duration: ['lasts'],
  hours: ['lasts'],
  start: ['opens', 'from', 'first'],
  end: ['to', 'closes'],
  until: ['to', 'closes'],
  sessions: ['days'],
  pauses: ['breaks'],
  warmup: ['warm_up'],
  interval: ['every'],
  type: ['drive', 'design'],
  capacity: ['basket', 'balls', 'holds'],
  size: ['batch', 'basket'],
  period: ['cycle'],
  time: ['cycle', 'travel'],
  delay: ['travel'],
  jams: ['stops'],
  failures: ['stops'],
  breakdowns: ['stops'],
  mtbf: ['running'],
  repair: ['clear', 'mend'],
  replace: ['pull', 'swap'],
  refill: ['top_up'],
  overflow: ['when_full', 'return'],
  block: ['back_up'],
  over: ['above'],
  factor: ['times'],
  loop: ['order'],
  sequence: ['order'],
  std: ['cv'],
  sd: ['cv'],
  name: ['title'],
  author: ['builder'],
};

/**
 * "Did you mean basket?" when something is near, otherwise the list of what is known.
 *
 * @example
 * suggest('bascket', ['basket', 'batch', 'cycle']) // => 'Did you mean basket?'
 */
export function suggest(written: string, known: readonly string[]): string {
  const near = nearest(written, known) ?? otherWord(written, known);
  if (near !== undefined) return `Did you mean ${near}?`;
  const shown = known.slice(0, 20).join(', ');
  return `Known here: ${shown}${known.length > 20 ? ` and ${known.length - 20} more` : ''}.`;
}

function otherWord(written: string, known: readonly string[]): string | undefined {
  const plain = written.toLowerCase();
  const meant = Object.hasOwn(OTHER_WORDS, plain) ? OTHER_WORDS[plain] : undefined;
  return meant?.find((word) => known.includes(word));
}
