import { sparesAnswer } from '../../answers/index.js';
import { loadScenarioFile } from '../../scenario/index.js';
import { spares } from '../../studies/index.js';
import type { ExitCode } from '../exitCode.js';
import { askQuestion } from './askQuestion.js';
import { measureAmount } from './measureAmount.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the spares command, as the command line gives them. */
export interface SparesCommandOptions extends QuestionOptions {
  readonly replications: number;
  readonly on?: string;
  readonly margin?: string;
}

/** `lapwright spares`: which one or two of the spares to bring. */
export async function sparesCommand(
  file: string,
  options: SparesCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const scenario = loadScenarioFile(file);
  const { replications, on = 'spills_per_hour' } = options;
  const margin = options.margin === undefined ? undefined : measureAmount(options.margin, on, '--margin');
  return askQuestion(options, {
    scenarios: [scenarioReference(scenario)],
    args,
    ask: async (study) =>
      sparesAnswer(
        scenario.name,
        await spares(study, scenario.spec, {
          replications,
          on,
          // A loop that stands still spills nothing: unless one measure is named, balls must pass as well.
          also: options.on === undefined ? ['throughput_bps'] : [],
          ...(margin !== undefined && { margin }),
        }),
      ),
  });
}
