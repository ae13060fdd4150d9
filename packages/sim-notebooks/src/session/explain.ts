import { InputError, type ScenarioKey, scenarioKeys, suggest } from '@lapwright/sim-core';
import { output } from '../display/index.js';
import { paragraphs } from '../report/index.js';
import { GLOSSARY, glossaryEntry } from '../words/index.js';
import { inCellWords } from './inCellWords.js';
import { Loop } from './loop.js';
import { plainly } from './plainly.js';
import { Reply } from './reply.js';
import { Run } from './run.js';
import { SideBySide } from './sideBySide.js';
import { Story } from './story.js';
import { figuresOf, pictureView } from './view.js';

/** How far to trust any simulation. */
const TRUST =
  'The intervals say how much the figures would move with other luck, not whether the file is right: times typed in by feel make a result by feel.';

/**
 * Says in plain words what something means: a word (`explain('interval')`), a key of a scenario file (`explain('charge')`,
 * `explain('cycle')`), a result, an answer, or one of its pictures (`explain(run, 'levels')`).
 *
 * @throws InputError when the word is not known; the message names the nearest that is
 * @example
 * explain('basket') // => undefined
 */
export function explain(what: string | Run | Reply | Story | SideBySide | Loop, picture?: string): void {
  plainly(() => {
    const said = typeof what === 'string' ? wordSaid(what) : thingSaid(what, picture);
    output({ 'text/html': paragraphs(said), 'text/plain': said.join('\n\n') });
  });
}

function thingSaid(what: Run | Reply | Story | SideBySide | Loop, picture: string | undefined): string[] {
  if (picture !== undefined) return pictureView(what, picture).figures.map(captioned);
  if (what instanceof Run) return [...what.headline, TRUST];
  if (what instanceof Reply) {
    const { sentence, because, sure, next } = what.answer;
    return [sentence, ...because, ...sure, ...next].map(inCellWords);
  }
  if (what instanceof Story || what instanceof SideBySide) return figuresOf(what).map(captioned);
  const { scenario, changes } = what;
  return [
    `${what.name}: ${what.modules.length} modules, ${what.modules.join(', ')}.`,
    ...(scenario.about === undefined ? [] : [scenario.about.trim()]),
    ...(changes.length === 0 ? [] : [`Changed: ${changes.join('; ')}.`]),
    ...figuresOf(what).map(captioned),
  ];
}

function captioned({ title, caption }: { readonly title: string; readonly caption: string }): string {
  return `${title}: ${caption}`;
}

function wordSaid(word: string): string[] {
  const found = glossaryEntry(word);
  const keys = keysNamed(word);
  if (found === undefined && keys.length === 0) {
    const words = GLOSSARY.flatMap((one) => [one.word, ...one.also]);
    throw new InputError([
      {
        code: 'unknown_name',
        path: '',
        rule: `there is no word or key ${JSON.stringify(word)} here`,
        hint: suggest(word, [...words, ...scenarioKeys().map(({ path }) => lastName(path))]),
      },
    ]);
  }
  const theory = found?.theory === undefined ? '' : ` In queueing theory: ${found.theory}.`;
  return [
    ...(found ? [`${capital(found.word)}: ${found.plain}${theory}`] : []),
    ...keys.map(
      ({ path, doc, required }) => `In a scenario file, ${path}${required ? ' (needed)' : ''}: ${doc}`,
    ),
  ];
}

/** Keys of a scenario file by their path, with names of the author's own or <name>, or by their last word. */
function keysNamed(written: string): ScenarioKey[] {
  const parts = written.trim().split('.');
  const known = scenarioKeys();
  const exact = known.filter(({ path }) => {
    const names = path.split('.');
    return names.length === parts.length && names.every((name, i) => name === '<name>' || name === parts[i]);
  });
  if (exact.length > 0 || parts.length > 1) return exact;
  const [wanted = ''] = parts;
  const form = wanted.toLowerCase().replaceAll(/[\s-]+/g, '_');
  return known.filter(({ path }) => lastName(path) === form);
}

function lastName(path: string): string {
  return path.split('.').at(-1)?.replace('[]', '') ?? path;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
