import type { DocumentPath } from '../scenario/index.js';

/** A path of a change taken apart, or what is wrong with it. */
export type ReadPath =
  { readonly ok: true; readonly path: DocumentPath } | { readonly ok: false; readonly rule: string };

/** Far deeper than any key of a scenario stands. */
const MOST_STEPS = 50;

/**
 * Takes a path apart: keys with dots between them, positions in lists, from 0, in brackets.
 *
 * @example
 * readPath('crew.shifts[0].minders').path // => ['crew', 'shifts', 0, 'minders']
 */
export function readPath(text: string): ReadPath {
  const path: (string | number)[] = [];
  if (text === '') return { ok: false, rule: 'the key is missing before the sign =' };
  for (const part of text.split('.')) {
    const [, key, positions = ''] = /^([^[\]]*)((?:\[\d{1,6}\])*)$/.exec(part) ?? [];
    if (key === undefined)
      return { ok: false, rule: `"${text.slice(0, 60)}" is no path: a position in a list is written [0]` };
    if (key === '')
      return { ok: false, rule: `"${text.slice(0, 60)}" is no path: a key is missing beside a dot` };
    if (path.length > MOST_STEPS)
      return {
        ok: false,
        rule: `"${text.slice(0, 60)}..." is no path: nothing stands that deep in a scenario`,
      };
    path.push(key, ...[...positions.matchAll(/\d+/g)].map(([digits]) => Number(digits)));
  }
  return { ok: true, path };
}
