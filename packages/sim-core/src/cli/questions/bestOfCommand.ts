import { basename } from 'node:path';
import { applyChanges, type ChangedScenario, parseVariant, type Variant } from '../../changes/index.js';
import { InputError, type Problem } from '../../errors/index.js';
import { system } from '../../studies/index.js';
import type { ExitCode } from '../exitCode.js';
import { askQuestion } from './askQuestion.js';
import { bestOfQuestion, type BestOfQuestionOptions } from './bestOfQuestion.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the best-of command, as the command line gives them. */
export interface BestOfCommandOptions extends QuestionOptions, BestOfQuestionOptions {
  readonly variant?: readonly string[];
}

/** `lapwright best-of`: the best of several scenarios, or of one and variants of it, with a promised chance. */
export async function bestOfCommand(
  files: readonly string[],
  options: BestOfCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const { variant = [] } = options;
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
  const name = files.length === 1 ? all[0]?.scenario.name : undefined;
  return askQuestion(options, {
    scenarios: all.map(({ scenario }) => scenarioReference(scenario)),
    args,
    ask: bestOfQuestion(name, systems, options),
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
