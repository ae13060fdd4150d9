import {
  type DocumentPath,
  parseValue,
  pathText,
  type ScenarioDocument,
  suggest,
} from '../scenario/index.js';
import type { Change } from './change.js';
import { readPath } from './changePath.js';
import { noModule, type Obstacle } from './draft.js';
import type { FormPlaces } from './formPlaces.js';
import { takenAtItsWord } from './takenAtItsWord.js';
import { copyFromTemplate, templateOf } from './template.js';

/** What the keys of author's own choice in a group are the names of. */
const NAMED: Readonly<Record<string, string>> = {
  modules: 'module',
  templates: 'template',
  spares: 'spare',
  stops: 'cause of stopping',
};

/**
 * Gives a key of the scenario another value. Keys that cannot stand beside it give way; what a template says of a group
 * is written into the module before a part of it is set.
 */
export function setKey(
  draft: ScenarioDocument,
  change: Change & { readonly kind: 'set' },
  form: FormPlaces,
): Obstacle[] {
  const read = readPath(change.path);
  if (!read.ok) return [{ code: 'syntax', path: '', rule: read.rule }];
  const value = parseValue(change.value);
  if (!value.ok) return [{ code: 'syntax', path: change.path, rule: value.rule, hint: value.hint }];
  const { path } = read;
  const lost = withoutSection(draft, path);
  if (lost) return [lost];
  // First the whole path is looked at, so that a change that cannot be made changes nothing.
  const obstacle = blocked(draft, path, form);
  if (obstacle) return [obstacle];
  for (let depth = 1; depth < path.length; depth++) makeRoom(draft, path, depth, form);
  giveWay(draft, path, form);
  draft.put(path, value.node);
  takenAtItsWord(draft, path);
  return [];
}

/** A module or spare named without the section it stands in; undefined when it is not. */
function withoutSection(draft: ScenarioDocument, path: DocumentPath): Obstacle | undefined {
  const [name] = path;
  if (path.length < 2 || typeof name !== 'string' || draft.keys([]).includes(name)) return undefined;
  const section = ['modules', 'spares'].find((one) => draft.keys([one]).includes(name));
  if (section === undefined) return undefined;
  const rule = `${name} stands under ${section}`;
  return {
    code: 'unknown_name',
    path: pathText(path),
    rule,
    hint: `Did you mean ${section}.${pathText(path)}?`,
  };
}

/** Why there is no way to the place; undefined when there is one, or one can be made. */
function blocked(draft: ScenarioDocument, path: DocumentPath, form: FormPlaces): Obstacle | undefined {
  for (let depth = 0; depth < path.length; depth++) {
    const place = path.slice(0, depth);
    const here = seenAs(draft, place);
    const part = path[depth];
    const kind = draft.kind(here);
    if (typeof part === 'number') {
      if (kind !== 'list') {
        const rule = `${pathText(place)} is not a list, so that [${part}] means nothing`;
        return { code: 'wrong_type', path: pathText(path), rule, hint: 'Leave the brackets out.' };
      }
      const { length } = draft.names(here);
      if (part >= length) {
        const rule = `the list ${pathText(place)} has ${length === 1 ? '1 item' : `${length} items`}, counted from [0] to [${length - 1}]`;
        return { code: 'out_of_range', path: pathText(path), rule };
      }
      continue;
    }
    if (kind === 'list') {
      const hint = `Say which item of it is meant, such as ${pathText([...place, 0])}${part === undefined ? '' : `.${part}`}, or set the whole list.`;
      return { code: 'wrong_type', path: pathText(path), rule: `${pathText(place)} is a list`, hint };
    }
    const isLast = depth === path.length - 1;
    if (part !== undefined && !isLast && form.isNamed(place) && !draft.keys(here).includes(part))
      return unknownName(draft, path, depth, here);
  }
  return undefined;
}

function unknownName(
  draft: ScenarioDocument,
  path: DocumentPath,
  depth: number,
  here: DocumentPath,
): Obstacle {
  const group = String(path[depth - 1]);
  const name = String(path[depth]);
  const what = NAMED[group] ?? 'entry';
  const where = pathText(path.slice(0, depth + 1));
  const known = draft.keys(here);
  if (group === 'modules') {
    const obstacle = noModule(draft, name, known);
    const section = ['spares', 'templates'].find((other) => draft.keys([other]).includes(name));
    return {
      ...obstacle,
      path: where,
      ...(section !== undefined && { hint: `Did you mean ${section}.${pathText(path.slice(1))}?` }),
    };
  }
  return {
    code: 'unknown_name',
    path: where,
    rule: `there is no ${what} "${name.slice(0, 60)}" here`,
    hint: known.length > 0 ? suggest(name, known) : `There is no ${what} at all.`,
  };
}

/** Where a group is written: in the module, or in its template when the module says nothing of it. */
function seenAs(draft: ScenarioDocument, place: DocumentPath): DocumentPath {
  const template = fromTemplate(draft, place);
  return template === undefined ? place : ['templates', template, ...place.slice(2)];
}

/** The template that says what a module or spare does not say itself of a key; undefined when it says so itself. */
function fromTemplate(draft: ScenarioDocument, place: DocumentPath): string | undefined {
  const [section, name, key] = place;
  if ((section !== 'modules' && section !== 'spares') || typeof name !== 'string' || typeof key !== 'string')
    return undefined;
  if (draft.kind([section, name, key]) !== undefined) return undefined;
  const template = templateOf(draft, section, name);
  return template !== undefined && draft.kind(['templates', template, key]) !== undefined
    ? template
    : undefined;
}

/** Sees to it that a group or list stands at a step of the path, with what was said there before. */
function makeRoom(draft: ScenarioDocument, path: DocumentPath, depth: number, form: FormPlaces): void {
  const place = path.slice(0, depth);
  const [section, name, key] = place;
  const template = depth === 3 ? fromTemplate(draft, place) : undefined;
  if (template !== undefined) copyFromTemplate(draft, template, [String(section), String(name)], String(key));
  const kind = draft.kind(place);
  if (kind === 'map' || kind === 'list') return;
  const short = form.isShortForBalls(place) ? draft.scalar(place) : undefined;
  giveWay(draft, place, form);
  draft.putMap(place);
  if (typeof short === 'number' || typeof short === 'string') draft.putPlain([...place, 'balls'], short);
}

/** Takes out the keys that cannot stand beside the one that is set. */
function giveWay(draft: ScenarioDocument, path: DocumentPath, form: FormPlaces): void {
  const key = path.at(-1);
  if (typeof key !== 'string') return;
  const map = path.slice(0, -1);
  for (const rival of form.rivals(map, key)) draft.remove([...map, rival]);
}
