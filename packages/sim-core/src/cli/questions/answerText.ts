import type { Answer } from '../../answers/index.js';
import { table, wrap } from '../layout.js';

/**
 * An answer as printed: the verdict, what it rests on, tables, how sure, what to try next.
 *
 * @example
 * answerText(exampleAnswer).startsWith('Undecided.') // => true
 */
export function answerText({ sentence, because, tables, sure, next }: Answer): string {
  return `${[
    wrap([sentence, ...because].join(' ')),
    ...tables.flatMap(({ title, head, rows }) => [`${title}\n${table(head, rows)}`]),
    ...(sure.length === 0 ? [] : [list('How sure:', sure)]),
    ...(next.length === 0 ? [] : [list('To try next:', next)]),
  ].join('\n\n')}\n`;
}

function list(title: string, points: readonly string[]): string {
  return [title, ...points.map((point) => `- ${wrap(point, '  ')}`)].join('\n');
}
