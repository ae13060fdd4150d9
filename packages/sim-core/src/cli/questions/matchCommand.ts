import { loadScenarioFile } from '../../scenario/index.js';
import type { ExitCode } from '../exitCode.js';
import { logReadText } from '../readLogs.js';
import { askQuestion } from './askQuestion.js';
import { matchQuestion } from './matchQuestion.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the match command, as the command line gives them. */
export interface MatchCommandOptions extends QuestionOptions {
  readonly replications: number;
  readonly day: number;
}

/** `lapwright match`: whether a scenario matches what was logged at a show. */
export async function matchCommand(
  file: string,
  logs: readonly string[],
  options: MatchCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const scenario = loadScenarioFile(file);
  const { log, ask } = matchQuestion(scenario, logs, options);
  process.stderr.write(logReadText(log));
  return askQuestion(options, { scenarios: [scenarioReference(scenario)], reads: logs, args, ask });
}
