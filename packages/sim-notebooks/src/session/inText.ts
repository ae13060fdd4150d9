import { inspect } from 'node:util';

/**
 * Says how something reads when a cell ends with it: as text for people instead of a tree of fields. Not a field of its own,
 * so that completion is not cluttered.
 */
export function inText(thing: object, text: () => string): void {
  Object.defineProperty(thing, inspect.custom, { value: text, enumerable: false, configurable: true });
}
