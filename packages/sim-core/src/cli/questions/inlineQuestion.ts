import { inlineAnswer } from '../../answers/index.js';
import { type ChangedScenario, parseChanges } from '../../changes/index.js';
import { inline } from '../../studies/index.js';
import { shellWord } from '../shellWord.js';
import type { Ask, AskedScenario } from './askedScenario.js';
import { readInlineCase, type WantedPlaces } from './inlineCase.js';

/** Where the module may go, what is held against it, and how well it is looked at. */
export interface InlineQuestionOptions extends WantedPlaces {
  /** Shows of each loop. */
  readonly replications: number;
  /** Shows for the search for a place. */
  readonly search: number;
  readonly spare?: string;
  /** Rules of the house as typed, each with its limit: `spills_per_hour=80`. */
  readonly rule?: readonly string[];
  /** Keys that are set first, as typed: `charge=60`. */
  readonly set?: readonly string[];
  /** All figures at their word, whatever they were counted from. @default false */
  readonly asWritten?: boolean;
  /** Draws of what was counted, two shows each. @default 200 */
  readonly draws?: number;
}

/**
 * Whether a module may go into the loop by the rules of the house, where best, and with how many stops.
 *
 * @returns the question, and the scenario with the rules and keys that were typed
 * @throws InputError when it cannot be asked like this
 * @example
 * const asked = askedFile('scenarios/pull-and-spare.yaml');
 * const study = new Study({ seed: 1, source: showsHere() });
 * const { ask } = inlineQuestion(asked, 'gold-thread', { replications: 3, search: 2, rule: ['spills_per_hour=500'] });
 * (await ask(study)).verdict // => 'inline'
 */
export function inlineQuestion(
  loop: AskedScenario,
  module: string,
  options: InlineQuestionOptions,
): { readonly scenario: ChangedScenario; readonly ask: Ask } {
  const { rule = [], set = [], replications, search, after, before, anywhere, places, spare } = options;
  const { asWritten, draws } = options;
  const { scenario, asked, rules, leftOut } = readInlineCase(loop, {
    module,
    changes: parseChanges(set.map((value) => ({ option: 'set', value }))),
    rules: parseChanges(rule.map((value) => ({ option: 'set', value: `house_rules.${value}` }))),
    ...(after !== undefined && { after }),
    ...(before !== undefined && { before }),
    ...(anywhere !== undefined && { anywhere }),
    ...(places !== undefined && { places }),
    ...(spare !== undefined && { spare }),
    ...(asWritten !== undefined && { asWritten }),
  });
  const holds = asked.places[0]?.spec.modules.find(({ id }) => id === module)?.basket.capacity;
  return {
    scenario,
    ask: async (study) =>
      inlineAnswer(
        scenario.name,
        await inline(study, asked, {
          rules,
          replications,
          searchShows: search,
          ...(draws !== undefined && { draws }),
        }),
        leftOut,
        {
          file: shellWord(loop.scenario.source.file),
          options: [
            ...scenario.source.changes.map(retyped),
            ...(spare === undefined ? [] : ['--spare', spare]),
            ...(asWritten === true ? ['--as-written'] : []),
            ...(draws === undefined ? [] : ['--draws', String(draws)]),
          ].join(' '),
          place: typedPlace(options),
          inLoop: scenario.spec.modules.some(({ id }) => id === module),
          ...(holds !== undefined && { holds }),
        },
      ),
  };
}

function typedPlace({ after, before, anywhere, places }: WantedPlaces): string {
  if (after !== undefined) return `--after ${after}`;
  if (before !== undefined) return `--before ${before}`;
  if (places !== undefined) return `--places ${places.join()}`;
  return anywhere === true ? '--anywhere' : '';
}

/** A change as it may be typed into a shell again. */
function retyped(change: string): string {
  const [, option = change, value] = /^(--\S+) (.*)$/s.exec(change) ?? [];
  return value === undefined ? option : `${option} ${shellWord(value)}`;
}
