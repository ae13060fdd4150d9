import { howManyAnswer } from '../../answers/index.js';
import { loadScenarioFile } from '../../scenario/index.js';
import { fullHours } from '../../model/spec/index.js';
import { sweep } from '../../studies/index.js';
import type { ExitCode } from '../exitCode.js';
import { argumentFault } from './argumentFault.js';
import { askQuestion } from './askQuestion.js';
import { measureAmount } from './measureAmount.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';
import { type AskedThing, variedOf } from './variedOf.js';

/** Options of the how-many command, as the command line gives them. */
export interface HowManyCommandOptions extends QuestionOptions, Omit<AskedThing, 'what' | 'module'> {
  readonly replications: number;
  readonly on?: string;
  readonly limit?: string;
  readonly margin?: string;
  readonly least?: boolean;
  readonly most?: boolean;
}

/** Of balls, when nothing is said: public hours with a spill. */
const SPILL_LIMIT = 0.05;

/** `lapwright how-many`: one thing varied, and the value to take. */
export async function howManyCommand(
  file: string,
  what: string,
  module: string | undefined,
  options: HowManyCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const { least = false, most = false, replications } = options;
  const scenario = loadScenarioFile(file);
  const { varied, notes } = variedOf(scenario, { ...options, what, ...(module !== undefined && { module }) });
  if (least && most)
    throw argumentFault(
      '--most',
      'as much and as little as will do are both asked for',
      'Leave --least or --most out.',
    );
  if (options.limit !== undefined && options.margin !== undefined)
    throw argumentFault(
      '--margin',
      'with --limit the limit alone decides',
      'Leave --margin out, or --limit to ask what is enough.',
    );
  const isBalls = varied.thing.kind === 'balls';
  const risk = fullHours(varied.now.show) > 0 ? 'spill_hour_share' : 'spill_show_share';
  const asked = options.on !== undefined || options.margin !== undefined;
  const on = options.on ?? (isBalls && options.margin === undefined ? risk : 'spills_per_hour');
  const limit =
    options.limit === undefined
      ? isBalls && !asked
        ? SPILL_LIMIT
        : undefined
      : measureAmount(options.limit, on, '--limit');
  const margin = options.margin === undefined ? undefined : measureAmount(options.margin, on, '--margin');
  return askQuestion(options, {
    scenarios: [scenarioReference(scenario)],
    args,
    ask: async (study) =>
      howManyAnswer(
        scenario.name,
        await sweep(study, varied, {
          replications,
          on,
          // A loop that stands still spills nothing: unless one measure is named, balls must pass as well.
          also: options.on === undefined && limit === undefined ? ['throughput_bps'] : [],
          ...(limit !== undefined && { limit }),
          ...(margin !== undefined && { margin }),
          ...((least || most) && { want: least ? 'least' : 'most' }),
        }),
        notes,
      ),
  });
}
