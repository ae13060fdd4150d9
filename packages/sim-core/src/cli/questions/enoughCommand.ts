import { enoughAnswer } from '../../answers/index.js';
import { loadScenarioFile } from '../../scenario/index.js';
import { untilNarrow } from '../../studies/index.js';
import type { ExitCode } from '../exitCode.js';
import { askQuestion } from './askQuestion.js';
import { measureDistance } from './measureAmount.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the enough command, as the command line gives them. */
export interface EnoughCommandOptions extends QuestionOptions {
  readonly on: string;
  readonly within: string;
  readonly atMost: number;
}

/** `lapwright enough`: shows until a figure is known as sharply as asked. */
export async function enoughCommand(
  file: string,
  options: EnoughCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const scenario = loadScenarioFile(file);
  const { on, atMost } = options;
  const within = measureDistance(options.within, on, '--within', 'above 0');
  return askQuestion(options, {
    scenarios: [scenarioReference(scenario)],
    args,
    ask: async (study) =>
      enoughAnswer(scenario.name, await untilNarrow(study, scenario.spec, { on, within, atMost })),
  });
}
