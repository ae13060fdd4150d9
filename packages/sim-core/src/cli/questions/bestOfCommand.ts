import { basename } from 'node:path';
import { bestOfAnswer } from '../../answers/index.js';
import { applyChanges, type ChangedScenario, parseVariant, type Variant } from '../../changes/index.js';
import { InputError, type Problem } from '../../errors/index.js';
import { selectBest, type System, system } from '../../studies/index.js';
import type { ExitCode } from '../exitCode.js';
import { askQuestion } from './askQuestion.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the best-of command, as the command line gives them. */
export interface BestOfCommandOptions extends QuestionOptions {
  readonly replications: number;
  readonly on: string;
  readonly variant?: readonly string[];
  readonly zone?: number;
  readonly confidence: number;
  readonly independent?: boolean;
}

/** Shows of each before the first look. */
const FIRST_LOOK = 10;

/** `lapwright best-of`: the best of several scenarios, or of one and variants of it, with a promised chance. */
export async function bestOfCommand(
  files: readonly string[],
  options: BestOfCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const { replications, on, zone, confidence, independent = false, variant = [] } = options;
  const [first = ''] = files;
  const all = together([
    ...files.map((file) => () => ({ scenario: applyChanges(file, []) })),
    ...variant.map((text) => () => {
      const read = parseVariant(text);
      return { scenario: applyChanges(first, read.changes), variant: read };
    }),
  ]);
  const systems = all.map(({ scenario, variant: read }) =>
    system(labelOf(scenario, read, files.length), scenario.spec),
  );
  refuse([...tooFew(systems), ...alike(systems), ...tooShort(replications)]);
  const name = all[0]?.scenario.name ?? '';
  return askQuestion(options, {
    scenarios: all.map(({ scenario }) => scenarioReference(scenario)),
    args,
    ask: async (study) =>
      bestOfAnswer(
        files.length === 1 ? `${name}: the best of ${systems.length}` : `The best of ${systems.length}`,
        await selectBest(study, systems, {
          replications,
          on,
          confidence,
          independent,
          firstLook: FIRST_LOOK,
          ...(zone !== undefined && { zone }),
        }),
      ),
  });
}

interface Named {
  readonly scenario: ChangedScenario;
  readonly variant?: Variant;
}

/** Reads them all, and tells the problems of all at once. */
function together(readers: readonly (() => Named)[]): Named[] {
  const problems: Problem[] = [];
  const messages: string[] = [];
  const all = readers.flatMap((read) => {
    try {
      return read();
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      problems.push(...error.problems);
      messages.push(error.message);
      return [];
    }
  });
  if (problems.length === 0) return all;
  const together = new InputError(problems);
  // Each kind of problem words its own lines; the same file named twice gives the same ones.
  together.message = [...new Set(messages)].join('\n');
  throw together;
}

function labelOf(
  { source, changesInWords }: ChangedScenario,
  variant: Variant | undefined,
  files: number,
): string {
  if (variant === undefined) return files === 1 ? 'as it is' : basename(source.file);
  return variant.name ?? changesInWords.join(', ');
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
