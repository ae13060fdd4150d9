import { matchAnswer } from '../../answers/index.js';
import { loadScenarioFile } from '../../scenario/index.js';
import { match } from '../../studies/index.js';
import type { ExitCode } from '../exitCode.js';
import { knownModules, logReadText, readLogs } from '../readLogs.js';
import { askQuestion } from './askQuestion.js';
import { toMatchLog } from './matchLog.js';
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
  const { spec, name } = scenario;
  const { replications, day } = options;
  const read = readLogs(logs, knownModules(scenario));
  process.stderr.write(logReadText(read));
  const log = toMatchLog(read, spec, day);
  return askQuestion(options, {
    scenarios: [scenarioReference(scenario)],
    reads: logs,
    args,
    ask: async (study) =>
      matchAnswer(await match(study, spec, log, { replications, counted: scenario.counted ?? [] }), {
        name,
        log: logs.length === 1 ? (logs[0] ?? '') : `${logs.length} logs`,
        clock: spec.show,
      }),
  });
}
