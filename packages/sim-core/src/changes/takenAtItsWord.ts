import type { DocumentPath, ScenarioDocument } from '../scenario/index.js';
import { templateOf } from './template.js';

/** The figures that are counted, by key, and where under `counted:` it stands. */
const COUNTED: Readonly<Record<string, string>> = { cycle: 'cycles', catch: 'caught', leak: 'leaked' };

/** Keys of a cause that were not counted. */
const NOT_COUNTED = ['drops', 'crew.notice', 'crew.walk'];

/**
 * A figure that is set is taken at its word: what was counted of the figure before no longer backs it and is taken out. So
 * it is for every module that has the figure from a template that is changed.
 *
 * @param path what has been set
 */
export function takenAtItsWord(draft: ScenarioDocument, path: DocumentPath): void {
  const [section, name, key] = path;
  if (typeof name !== 'string' || typeof key !== 'string') return;
  if (section === 'modules' || section === 'spares') takeOut(draft, section, name, path.slice(2));
  if (section !== 'templates') return;
  for (const kind of ['modules', 'spares']) {
    for (const one of draft.keys([kind])) {
      const own = draft.kind([kind, one, key]) !== undefined;
      if (!own && templateOf(draft, kind, one) === name) takeOut(draft, kind, one, path.slice(2));
    }
  }
}

function takeOut(draft: ScenarioDocument, section: string, name: string, path: DocumentPath): void {
  const at = [section, name, 'counted'];
  if (draft.kind(at) === undefined) return;
  const [key, cause, ...rest] = path;
  const counts = COUNTED[String(key)];
  if (key === 'like') draft.remove(at);
  else if (counts !== undefined) draft.remove([...at, counts]);
  else if (key === 'stops') takeOutStops(draft, at, cause, rest);
  for (const emptied of [[...at, 'stops'], at])
    if (draft.kind(emptied) === 'map' && draft.keys(emptied).length === 0) draft.remove(emptied);
}

function takeOutStops(
  draft: ScenarioDocument,
  at: DocumentPath,
  cause: DocumentPath[number] | undefined,
  rest: DocumentPath,
): void {
  if (cause === undefined) return draft.remove([...at, 'stops']);
  const below = rest.join('.');
  if (NOT_COUNTED.some((one) => below === one || below.startsWith(`${one}.`))) return;
  const remedy = rest[0] === 'crew' || rest[0] === 'itself';
  draft.remove([...at, 'stops', cause, ...(remedy ? ['clears'] : [])]);
}
