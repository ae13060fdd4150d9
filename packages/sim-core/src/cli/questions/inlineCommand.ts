import type { ExitCode } from '../exitCode.js';
import { askedFile } from './askedScenario.js';
import { askQuestion } from './askQuestion.js';
import { inlineQuestion, type InlineQuestionOptions } from './inlineQuestion.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the inline command, as the command line gives them. */
export interface InlineCommandOptions extends QuestionOptions, InlineQuestionOptions {}

/** `lapwright inline`: whether a module may go into the loop by the rules of the house, where best, and with how many stops. */
export async function inlineCommand(
  file: string,
  module: string,
  options: InlineCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const { scenario, ask } = inlineQuestion(askedFile(file), module, options);
  return askQuestion(options, { scenarios: [scenarioReference(scenario)], args, ask });
}
