import type { ExitCode } from '../exitCode.js';
import { askedFile } from './askedScenario.js';
import { askQuestion } from './askQuestion.js';
import { howManyQuestion, type HowManyQuestionOptions } from './howManyQuestion.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the how-many command, as the command line gives them. */
export interface HowManyCommandOptions
  extends QuestionOptions, Omit<HowManyQuestionOptions, 'what' | 'module'> {}

/** `lapwright how-many`: one thing varied, and the value to take. */
export async function howManyCommand(
  file: string,
  what: string,
  module: string | undefined,
  options: HowManyCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const asked = askedFile(file);
  return askQuestion(options, {
    scenarios: [scenarioReference(asked.scenario)],
    args,
    ask: howManyQuestion(asked, { ...options, what, ...(module !== undefined && { module }) }),
  });
}
