import { basename } from 'node:path';
import { compareAnswer } from '../../answers/index.js';
import { applyChanges } from '../../changes/index.js';
import { InputError } from '../../errors/index.js';
import { loadScenarioFile } from '../../scenario/index.js';
import { compare, system } from '../../studies/index.js';
import type { ExitCode } from '../exitCode.js';
import { askQuestion } from './askQuestion.js';
import type { ChangeOptions } from './changeOptions.js';
import { changesOf } from './changesOf.js';
import { measureDistance } from './measureAmount.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the compare command, as the command line gives them. */
export interface CompareCommandOptions extends QuestionOptions, ChangeOptions {
  readonly replications: number;
  readonly on: string;
  readonly margin: string;
  readonly untilClear?: boolean;
}

/** `lapwright compare`: two scenario files, or one and a change to it, show by show with the same luck. */
export async function compareCommand(
  file: string,
  other: string | undefined,
  options: CompareCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const changes = changesOf(options);
  if (other === undefined && changes.length === 0) {
    throw new InputError([
      {
        code: 'missing_key',
        path: '',
        rule: 'there is nothing to compare with',
        hint: 'Name a second file, or a change such as --set crew.minders=2 or --swap a,b.',
      },
    ]);
  }
  const scenarios = [loadScenarioFile(file), applyChanges(other ?? file, changes)] as const;
  const before = system(basename(file), scenarios[0].spec);
  const after = system(
    [...(other === undefined ? [] : [basename(other)]), ...scenarios[1].changesInWords].join(', '),
    scenarios[1].spec,
  );
  const { replications, on, untilClear = false } = options;
  const margin = measureDistance(options.margin, on, '--margin', 'from 0');
  return askQuestion(options, {
    scenarios: scenarios.map((scenario) => scenarioReference(scenario)),
    args,
    ask: async (study) =>
      compareAnswer(
        before.label,
        after.label,
        await compare(study, before, after, {
          replications,
          on,
          stopWhenClear: untilClear,
          margin,
        }),
      ),
  });
}
