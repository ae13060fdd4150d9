import { loadScenarioFile } from '../../scenario/index.js';
import type { ExitCode } from '../exitCode.js';
import { askQuestion } from './askQuestion.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';
import { whenStopsQuestion, type WhenStopsQuestionOptions } from './whenStopsQuestion.js';

/** Options of the when-stops command, as the command line gives them. */
export interface WhenStopsCommandOptions extends QuestionOptions, WhenStopsQuestionOptions {}

/** `lapwright when-stops`: what happens when one module stops now, and by when hands must act. */
export async function whenStopsCommand(
  file: string,
  module: string,
  options: WhenStopsCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const scenario = loadScenarioFile(file);
  return askQuestion(options, {
    scenarios: [scenarioReference(scenario)],
    args,
    ask: whenStopsQuestion(scenario, module, options),
  });
}
