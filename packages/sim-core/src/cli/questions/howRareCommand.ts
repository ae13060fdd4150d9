import { loadScenarioFile } from '../../scenario/index.js';
import type { ExitCode } from '../exitCode.js';
import { askQuestion } from './askQuestion.js';
import { howRareQuestion } from './howRareQuestion.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the how-rare command, as the command line gives them. */
export interface HowRareCommandOptions extends QuestionOptions {
  readonly replications: number;
}

/** `lapwright how-rare`: the chance that a basket runs over, when it is too small to be seen in plain shows. */
export async function howRareCommand(
  file: string,
  module: string | undefined,
  options: HowRareCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const scenario = loadScenarioFile(file);
  return askQuestion(options, {
    scenarios: [scenarioReference(scenario)],
    args,
    ask: howRareQuestion(scenario, module, options),
  });
}
