import { floodCardAnswer } from '../../answers/index.js';
import { loadScenarioFile } from '../../scenario/index.js';
import { floodCard, type FloodCard } from '../../studies/index.js';
import type { ExitCode } from '../exitCode.js';
import { shellWord } from '../shellWord.js';
import { askQuestion } from './askQuestion.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the flood-card command, as the command line gives them. */
export interface FloodCardCommandOptions extends QuestionOptions {
  readonly replications: number;
  readonly moments: number;
  readonly watch: number;
}

/** `lapwright flood-card`: how soon each basket floods if its module stops, for the table. */
export async function floodCardCommand(
  file: string,
  options: FloodCardCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const scenario = loadScenarioFile(file);
  const { replications, moments, watch } = options;
  let card: FloodCard | undefined;
  return askQuestion(options, {
    scenarios: [scenarioReference(scenario)],
    args,
    ask: async (study) => {
      card = await floodCard(study, scenario.spec, { replications, moments, watchSeconds: watch });
      return floodCardAnswer(scenario.name, card, shellWord(file));
    },
    write: (charts, input) => {
      if (card === undefined) throw new Error('the card is written before it is known');
      return Promise.resolve(charts.floodCardPage({ ...input, card }));
    },
  });
}
