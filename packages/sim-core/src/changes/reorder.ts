import type { LoopSpec } from '../model/spec/index.js';
import { changedDraft, type ScenarioText } from './applyChanges.js';
import type { Change } from './change.js';

/**
 * Opens a scenario to have its modules put into other orders, many times over: what comes out is what `--move` and
 * `--swap` to that order give.
 *
 * @param from path of a scenario file, or its text
 * @param changes that are made to it first; `applyChanges` has made them before
 * @returns a function from the ids in the order in which balls pass them to the loop, undefined where the scenario does not
 *   allow that order (such as a lever of which the watched module would be missing)
 * @throws InputError when the file cannot be used as it stands
 * @example
 * const text = '{ name: two, show: { lasts: 1 h }, charge: 9, modules: { a: &m { basket: 60, cycle: 0.9 s, travel: 5 s }, b: *m } }';
 * reorder({ text })(['b', 'a']).modules.map(({ id }) => id) // => ['b', 'a']
 */
export function reorder(
  from: string | ScenarioText,
  changes: readonly Change[] = [],
): (order: readonly string[]) => LoopSpec | undefined {
  const draft = changedDraft(from, changes);
  return (order) => {
    draft.putPlain(['order'], order);
    return draft.read().scenario?.spec;
  };
}
