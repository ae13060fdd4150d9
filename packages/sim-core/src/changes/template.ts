import type { ScenarioDocument } from '../scenario/index.js';

/** The template that a module or spare is like, if there is one. */
export function templateOf(draft: ScenarioDocument, section: string, name: string): string | undefined {
  const like = draft.scalar([section, name, 'like']);
  if (like === undefined) return undefined;
  return draft.keys(['templates']).find((template) => template === String(like));
}

/** Writes into a module or spare what its template says of a key; into a spare only what a spare takes from it. */
export function copyFromTemplate(
  draft: ScenarioDocument,
  template: string,
  [section, name]: readonly [string, string],
  key: string,
): void {
  const isSpare = section === 'spares';
  if (isSpare && (key === 'pull' || key === 'lever')) return;
  const to = [section, name, key];
  draft.copy(['templates', template, key], to);
  if (!isSpare) return;
  if (key === 'basket') draft.remove([...to, 'when_full']);
  if (key !== 'stops') return;
  for (const cause of draft.keys(to)) {
    if (draft.kind([...to, cause, 'at']) !== undefined) draft.remove([...to, cause]);
  }
}
