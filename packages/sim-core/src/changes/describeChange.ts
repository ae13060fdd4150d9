import type { Change, PlaceBeside } from './change.js';
import { readPath } from './changePath.js';

/** What is known of a key that a change sets, as it should be said. */
export interface ValueWords {
  /** What it was before; nothing was said of it when absent. */
  readonly was?: string;
  /** What it is now. @default as it was typed */
  readonly is?: string;
}

/**
 * A change in plain words, to stand in a list or behind a number.
 *
 * @param values what a key that is set was and is; not needed for other changes
 * @example
 * describeChange({ kind: 'set', path: 'modules.tipper.basket', value: '150' }, { was: '120' }) // => "tipper's basket holds 150 instead of 120"
 * @example
 * describeChange({ kind: 'swap', modules: ['drunken-stairs', 'long-jump'] }) // => 'drunken-stairs and long-jump change places'
 */
export function describeChange(change: Change, values: ValueWords = {}): string {
  switch (change.kind) {
    case 'set':
      return setWords(change.path, values.is ?? change.value, values.was);
    case 'swap':
      return `${change.modules.join(' and ')} change places`;
    case 'move':
      return `${change.module} moves to the place ${placeWords(change.place)}`;
    case 'without':
      return `${change.module} goes to the side table`;
    case 'with':
      return `${change.module} comes from the side table to the place ${placeWords(change.place)}`;
    case 'stops-off':
      return `${change.module} never stops`;
  }
}

function placeWords({ side, module }: PlaceBeside): string {
  return `${side === 'after' ? 'right behind' : 'right before'} ${module}`;
}

function setWords(pathText: string, is: string, was: string | undefined): string {
  const before = was === undefined ? '' : ` instead of ${was}`;
  const read = readPath(pathText);
  const [section, name, ...rest] = read.ok ? read.path : [];
  const key = rest.join('.');
  if ((section === 'modules' || section === 'spares') && key !== '') {
    const inner = pathText.slice(`${section}.${name}.`.length);
    return `${moduleWords(String(name), key, inner, is)}${before}`;
  }
  if (section === 'templates' && key !== '')
    return `modules like ${name}: ${pathText.slice(`templates.${name}.`.length)} is ${is}${before}`;
  if (pathText === 'charge' || pathText === 'charge.balls')
    return `${counted(is, 'ball goes', 'balls go')} round${before}`;
  if (pathText === 'crew.minders') return `${counted(is, 'minder is', 'minders are')} on duty${before}`;
  return `${pathText} is ${is}${before}`;
}

function moduleWords(name: string, key: string, path: string, is: string): string {
  switch (key) {
    case 'basket':
    case 'basket.balls':
      return is.startsWith('{') ? `${name}'s basket is ${is}` : `${name}'s basket holds ${is}`;
    case 'batch':
      return `${name} lifts up to ${is} at once`;
    case 'cycle':
      return `a cycle of ${name} takes ${is}`;
    case 'travel':
      return `from ${name} to the next basket balls take ${is}`;
    case 'like':
      return `${name} is like ${is}`;
    default:
      return `${name}'s ${path} is ${is}`;
  }
}

function counted(value: string, one: string, many: string): string {
  return `${value} ${value === '1' ? one : many}`;
}
