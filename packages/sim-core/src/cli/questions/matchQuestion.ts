import { matchAnswer } from '../../answers/index.js';
import type { ReadLog } from '../../logs/index.js';
import type { Scenario } from '../../scenario/index.js';
import { match } from '../../studies/index.js';
import { knownModules, readLogs } from '../readLogs.js';
import { shellWord } from '../shellWord.js';
import type { Ask } from './askedScenario.js';
import { toMatchLog } from './matchLog.js';

/** How a scenario is held against logs. */
export interface MatchQuestionOptions {
  /** Shows to simulate. */
  readonly replications: number;
  /** Day of the show on which the logs begin, from 1. */
  readonly day: number;
  /** What the logs are called in the answer. @default their paths */
  readonly names?: readonly string[];
}

/**
 * Whether a scenario matches what was logged at a show.
 *
 * @throws InputError when a log cannot be read
 * @example
 * const { scenario } = askedFile('scenarios/demo.yaml');
 * matchQuestion(scenario, ['scenarios/demo-weekend.csv'], { replications: 199, day: 1 }).log.counter.length > 0 // => true
 */
export function matchQuestion(
  scenario: Scenario,
  logs: readonly string[],
  { replications, day, names = logs }: MatchQuestionOptions,
): { readonly log: ReadLog; readonly ask: Ask } {
  const { spec, name, counted = [] } = scenario;
  const log = readLogs(logs, knownModules(scenario));
  const { held, outside } = toMatchLog(log, spec, day);
  return {
    log,
    ask: async (study) => ({
      ...matchAnswer(await match(study, spec, held, { replications, counted }), {
        name,
        log: names.length === 1 ? (names[0] ?? '') : `${names.length} logs`,
        clock: spec.show,
        fit: {
          command: `npx lapwright fit ${names.map(shellWord).join(' ')} --loop ${shellWord(scenario.source.file)}`,
          into: shellWord(scenario.source.file.replace(/(\.\w+)?$/, '-from-log$1')),
        },
        outside,
        watched: held.stretches.length > 0,
      }),
      counts_kept: true,
    }),
  };
}
