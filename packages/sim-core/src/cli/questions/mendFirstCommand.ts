import { mendFirstAnswer } from '../../answers/index.js';
import { loadScenarioFile } from '../../scenario/index.js';
import { mendFirst } from '../../studies/index.js';
import type { ExitCode } from '../exitCode.js';
import { askQuestion } from './askQuestion.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the mend-first command, as the command line gives them. */
export interface MendFirstCommandOptions extends QuestionOptions {
  readonly replications: number;
  readonly on: string;
  readonly places: number;
}

/** `lapwright mend-first`: which modules to mend first, by what the show gains if they never stopped. */
export async function mendFirstCommand(
  file: string,
  options: MendFirstCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const scenario = loadScenarioFile(file);
  const { replications, on, places } = options;
  return askQuestion(options, {
    scenarios: [scenarioReference(scenario)],
    args,
    ask: async (study) =>
      mendFirstAnswer(scenario.name, await mendFirst(study, scenario.spec, { replications, on, places })),
  });
}
