import { bestOfAnswer } from '../../answers/index.js';
import { InputError, type Problem } from '../../errors/index.js';
import { selectBest, type System } from '../../studies/index.js';
import type { Ask } from './askedScenario.js';

/** By what the best is found, and how surely. */
export interface BestOfQuestionOptions {
  /** Shows of each at most. */
  readonly replications: number;
  readonly on: string;
  readonly zone?: number;
  readonly confidence: number;
  readonly independent?: boolean;
}

/** Shows of each before the first look. */
const FIRST_LOOK = 10;

/**
 * The best of several, with a promised chance.
 *
 * @param name of the scenario of which all of them are variants; undefined when they are different ones
 * @throws InputError when it cannot be asked like this
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const short = { ...exampleLoop, supply: { kind: 'charge', placed: [1, 0] } };
 * const systems = [system('twenty balls', exampleLoop), system('one ball', short)];
 * const ask = bestOfQuestion(undefined, systems, { replications: 10, on: 'throughput_bps', confidence: 0.95 });
 * (await ask(study)).title // => 'The best of 2'
 */
export function bestOfQuestion(
  name: string | undefined,
  systems: readonly System[],
  { replications, on, zone, confidence, independent = false }: BestOfQuestionOptions,
): Ask {
  refuse([...tooFew(systems), ...alike(systems), ...tooShort(replications)]);
  return async (study) =>
    bestOfAnswer(
      name === undefined ? `The best of ${systems.length}` : `${name}: the best of ${systems.length}`,
      await selectBest(study, systems, {
        replications,
        on,
        confidence,
        independent,
        firstLook: FIRST_LOOK,
        ...(zone !== undefined && { zone }),
      }),
    );
}

function tooFew(systems: readonly System[]): Problem[] {
  if (systems.length >= 2) return [];
  return [
    {
      code: 'missing_key',
      path: '',
      rule: 'there is nothing to choose from',
      hint: 'Name more files, or add such as --variant "--set crew.minders=2".',
    },
  ];
}

/** The same loop twice can never be told apart; the same name twice neither, in the answer. */
function alike(systems: readonly System[]): Problem[] {
  return systems.flatMap(({ label, key }, i): Problem[] => {
    const same = systems.slice(0, i).find((other) => other.key === key || other.label === label);
    if (same === undefined) return [];
    const rule =
      same.key === key
        ? `"${label}" is the same loop as "${same.label}"`
        : `two of them are called "${label}"`;
    const hint =
      same.key === key
        ? 'Take one of them out.'
        : 'Give a variant a name of its own: "another name: --set ...", or rename a file.';
    return [{ code: 'duplicate', path: '', rule, hint }];
  });
}

function tooShort(replications: number): Problem[] {
  if (replications >= FIRST_LOOK) return [];
  return [
    {
      code: 'out_of_range',
      path: '--replications',
      found: replications,
      rule: `${FIRST_LOOK} or more: so many shows of each are looked at first`,
    },
  ];
}

function refuse(problems: readonly Problem[]): void {
  if (problems.length > 0) throw new InputError(problems);
}
