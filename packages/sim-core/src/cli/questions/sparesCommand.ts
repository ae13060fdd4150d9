import { loadScenarioFile } from '../../scenario/index.js';
import type { ExitCode } from '../exitCode.js';
import { askQuestion } from './askQuestion.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';
import { sparesQuestion, type SparesQuestionOptions } from './sparesQuestion.js';

/** Options of the spares command, as the command line gives them. */
export interface SparesCommandOptions extends QuestionOptions, SparesQuestionOptions {}

/** `lapwright spares`: which one or two of the spares to bring. */
export async function sparesCommand(
  file: string,
  options: SparesCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const scenario = loadScenarioFile(file);
  return askQuestion(options, {
    scenarios: [scenarioReference(scenario)],
    args,
    ask: sparesQuestion(scenario, options),
  });
}
