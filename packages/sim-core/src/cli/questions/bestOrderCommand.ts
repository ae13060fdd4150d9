import type { ExitCode } from '../exitCode.js';
import { askedFile } from './askedScenario.js';
import { askQuestion } from './askQuestion.js';
import { bestOrderQuestion, type BestOrderQuestionOptions } from './bestOrderQuestion.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the best-order command, as the command line gives them. */
export interface BestOrderCommandOptions extends QuestionOptions, BestOrderQuestionOptions {}

/** `lapwright best-order`: an order of the same modules that does better, and what each move brings. */
export async function bestOrderCommand(
  file: string,
  options: BestOrderCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const asked = askedFile(file);
  return askQuestion(options, {
    scenarios: [scenarioReference(asked.scenario)],
    args,
    ask: bestOrderQuestion(asked, options),
  });
}
