import type { BuilderPage } from '../../answers/index.js';
import { loadScenarioFile } from '../../scenario/index.js';
import type { ExitCode } from '../exitCode.js';
import { logReadText } from '../readLogs.js';
import { askQuestion } from './askQuestion.js';
import { debriefQuestion } from './debriefQuestion.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the debrief command, as the command line gives them. */
export interface DebriefCommandOptions extends QuestionOptions {
  readonly replications: number;
  readonly on: string;
  readonly loop?: string;
  readonly builder?: string;
}

/** `lapwright debrief`: what each module did at a show, with a page for the club and one for each builder. */
export async function debriefCommand(
  logs: readonly string[],
  options: DebriefCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const { loop, builder, replications, on } = options;
  const scenario = loop === undefined ? undefined : loadScenarioFile(loop);
  const { log, ask } = debriefQuestion(logs, {
    replications,
    on,
    ...(scenario !== undefined && { scenario }),
    ...(builder !== undefined && { builder }),
  });
  process.stderr.write(logReadText(log));
  return askQuestion(options, {
    scenarios: scenario === undefined ? [] : [scenarioReference(scenario)],
    reads: logs,
    args,
    ask,
    write: (charts, input) => {
      const pages = input.answer.details['pages'] as readonly BuilderPage[];
      return charts.debriefPages({
        ...input,
        pages: builder === undefined ? pages : pages.filter((page) => page.builder === builder),
        club: builder === undefined,
      });
    },
  });
}
