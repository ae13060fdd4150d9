import { inlineAnswer } from '../../answers/index.js';
import { parseChanges } from '../../changes/index.js';
import { inline } from '../../studies/index.js';
import type { ExitCode } from '../exitCode.js';
import { askQuestion } from './askQuestion.js';
import { readInlineCase, type WantedPlaces } from './inlineCase.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the inline command, as the command line gives them. */
export interface InlineCommandOptions extends QuestionOptions, WantedPlaces {
  readonly replications: number;
  readonly search: number;
  readonly spare?: string;
  readonly rule?: readonly string[];
  readonly set?: readonly string[];
}

/** `lapwright inline`: whether a module may go into the loop by the rules of the house, where best, and with how many stops. */
export async function inlineCommand(
  file: string,
  module: string,
  options: InlineCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const { rule = [], set = [], replications, search, after, before, anywhere, places, spare } = options;
  const { scenario, asked, rules, leftOut } = readInlineCase(file, {
    module,
    changes: parseChanges(set.map((value) => ({ option: 'set', value }))),
    rules: parseChanges(rule.map((value) => ({ option: 'set', value: `house_rules.${value}` }))),
    ...(after !== undefined && { after }),
    ...(before !== undefined && { before }),
    ...(anywhere !== undefined && { anywhere }),
    ...(places !== undefined && { places }),
    ...(spare !== undefined && { spare }),
  });
  return askQuestion(options, {
    scenarios: [scenarioReference(scenario)],
    args,
    ask: async (study) =>
      inlineAnswer(
        scenario.name,
        await inline(study, asked, { rules, replications, searchShows: search }),
        leftOut,
      ),
  });
}
