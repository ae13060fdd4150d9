import type { ScenarioDocument } from '../scenario/index.js';
import { noModule, type Obstacle } from './draft.js';
import { takenAtItsWord } from './takenAtItsWord.js';
import { copyFromTemplate, templateOf } from './template.js';

/** Takes all causes of stopping from a module or spare. What its template says besides is written into it. */
export function stopsOff(draft: ScenarioDocument, name: string): Obstacle[] {
  const section = ['modules', 'spares'].find((key) => draft.keys([key]).includes(name));
  if (section === undefined)
    return [noModule(draft, name, [...draft.keys(['modules']), ...draft.keys(['spares'])])];
  const template = templateOf(draft, section, name);
  if (template !== undefined && draft.kind(['templates', template, 'stops']) !== undefined) {
    const own = draft.keys([section, name]);
    for (const key of draft.keys(['templates', template])) {
      if (!own.includes(key)) copyFromTemplate(draft, template, [section, name], key);
    }
    draft.remove([section, name, 'like']);
  }
  draft.remove([section, name, 'stops']);
  takenAtItsWord(draft, [section, name, 'stops']);
  return [];
}
