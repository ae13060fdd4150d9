import { sparesAnswer } from '../../answers/index.js';
import type { Scenario } from '../../scenario/index.js';
import { spares } from '../../studies/index.js';
import type { Ask } from './askedScenario.js';
import { measureAmount } from './measureAmount.js';

/** By what spares are judged, and how well. */
export interface SparesQuestionOptions {
  /** Shows that judge each choice. */
  readonly replications: number;
  readonly on?: string;
  readonly margin?: string;
}

/**
 * Which one or two of the spares to bring.
 *
 * @throws InputError when it cannot be asked like this
 * @example
 * const { scenario } = askedFile('scenarios/pull-and-spare.yaml');
 * const study = new Study({ seed: 1, source: showsHere() });
 * (await sparesQuestion(scenario, { replications: 3 })(study)).question // => 'spares'
 */
export function sparesQuestion({ name, spec }: Scenario, options: SparesQuestionOptions): Ask {
  const { replications, on = 'spills_per_hour' } = options;
  const margin = options.margin === undefined ? undefined : measureAmount(options.margin, on, '--margin');
  return async (study) =>
    sparesAnswer(
      name,
      await spares(study, spec, {
        replications,
        on,
        // A loop that stands still spills nothing: unless one measure is named, balls must pass as well.
        also: options.on === undefined ? ['throughput_bps'] : [],
        ...(margin !== undefined && { margin }),
      }),
    );
}
