import type { Scenario, ScenarioDocument } from '../scenario/index.js';
import { readPath } from './changePath.js';
import { templateOf } from './template.js';

/**
 * What stands at a path, as it should be said: a basket by the balls it holds however the file says so, a charge by its
 * balls, all else as it is written. Undefined when nothing is said there.
 *
 * @param scenario what the document reads as; undefined when it cannot be used
 */
export function valueWords(
  draft: ScenarioDocument,
  pathText: string,
  scenario: Omit<Scenario, 'source'> | undefined,
): string | undefined {
  const read = readPath(pathText);
  if (!read.ok) return undefined;
  const { path } = read;
  const [section, name, ...rest] = path;
  const key = rest.join('.');
  if (
    section === 'charge' &&
    scenario?.spec.supply.kind === 'charge' &&
    (path.length === 1 || name === 'balls')
  )
    return String(scenario.spec.supply.placed.reduce((sum, balls) => sum + balls, 0));
  if (pathText === 'crew.minders' && draft.kind(path) === undefined)
    return draft.kind(['crew', 'shifts']) === undefined ? undefined : 'shifts';
  if (section !== 'modules' && section !== 'spares') return draft.text(path);
  if (key === 'basket' || key === 'basket.balls') {
    const all = scenario && [
      ...scenario.spec.modules,
      ...scenario.sideTable,
      ...(scenario.spec.spares ?? []),
    ];
    const capacity = all?.find(({ id }) => id === name)?.basket.capacity;
    if (capacity !== undefined) return capacity === Infinity ? 'any number' : String(capacity);
  }
  const own = typeof rest[0] === 'string' ? draft.kind([section, String(name), rest[0]]) : undefined;
  const template = own === undefined ? templateOf(draft, section, String(name)) : undefined;
  return (
    draft.text(path) ?? (template === undefined ? undefined : draft.text(['templates', template, ...rest]))
  );
}
