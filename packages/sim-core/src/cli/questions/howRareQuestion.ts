import { howRareAnswer } from '../../answers/index.js';
import { InputError, type Problem } from '../../errors/index.js';
import { type Scenario, suggest } from '../../scenario/index.js';
import { howRare, watchable } from '../../studies/index.js';
import { shellWord } from '../shellWord.js';
import type { Ask } from './askedScenario.js';

/**
 * How rarely the basket of a module runs over, or any basket.
 *
 * @param module undefined for any
 * @throws InputError when there is no such module in the loop, or its basket cannot run over
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const ask = howRareQuestion(askedFile('scenarios/bench-one.yaml').scenario, undefined, { replications: 2 });
 * (await ask(study)).question // => 'how-rare'
 */
export function howRareQuestion(
  scenario: Scenario,
  module: string | undefined,
  { replications }: { readonly replications: number },
): Ask {
  const { spec, name, source } = scenario;
  const names = spec.modules.map(({ id }) => id);
  const places = watchable(spec);
  const place = module === undefined ? undefined : names.indexOf(module);
  const refuse = (problem: Omit<Problem, 'path'>): never => {
    throw new InputError([{ path: '<module>', ...problem }]);
  };
  if (module !== undefined && place === -1)
    refuse({
      code: 'unknown_name',
      found: module,
      rule: 'a module of the loop',
      hint: suggest(module, names),
    });
  if (places.length === 0 || (place !== undefined && !places.includes(place)))
    refuse({
      code: 'contradiction',
      rule: `${module === undefined ? 'no basket of this loop can' : `the basket of ${module} cannot`} run over: it has no limit, or holds back what comes`,
      ...(places.length > 0 && { hint: `Ask for another, such as ${names[places[0] ?? 0] ?? ''}.` }),
    });
  return async (study) =>
    howRareAnswer(
      name,
      await howRare(study, spec, { starts: replications, ...(place !== undefined && { place }) }),
      shellWord(source.file),
    );
}
