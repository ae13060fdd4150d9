import { howManyAnswer } from '../../answers/index.js';
import { houseRules } from '../../experiments/index.js';
import { fullHours } from '../../model/spec/index.js';
import { sweep } from '../../studies/index.js';
import { shellWord } from '../shellWord.js';
import { argumentFault } from './argumentFault.js';
import type { Ask, AskedScenario } from './askedScenario.js';
import { measureAmount } from './measureAmount.js';
import { typedChange } from './typedChange.js';
import { type AskedThing, variedOf } from './variedOf.js';

/** What is varied, by what it is judged, and how well. */
export interface HowManyQuestionOptions extends AskedThing {
  /** Shows that judge each value. */
  readonly replications: number;
  readonly on?: string;
  readonly limit?: string;
  readonly margin?: string;
  readonly least?: boolean;
  readonly most?: boolean;
}

/** Of balls, when nothing is said: public hours with a spill. */
const SPILL_LIMIT = 0.05;

/**
 * One thing varied, and the value to take.
 *
 * @throws InputError when it cannot be asked like this
 * @example
 * const asked = askedFile('scenarios/chain-of-five.yaml');
 * const study = new Study({ seed: 1, source: showsHere() });
 * const ask = howManyQuestion(asked, { what: 'basket', module: 'fifth', values: '30,60', replications: 3 });
 * (await ask(study)).question // => 'how-many'
 */
export function howManyQuestion(asked: AskedScenario, options: HowManyQuestionOptions): Ask {
  const { least = false, most = false, replications } = options;
  const { varied, notes } = variedOf(asked, options);
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
  const said = options.on !== undefined || options.margin !== undefined;
  const on = options.on ?? (isBalls && options.margin === undefined ? risk : 'spills_per_hour');
  const limit =
    options.limit === undefined
      ? isBalls && !said
        ? SPILL_LIMIT
        : undefined
      : measureAmount(options.limit, on, '--limit');
  const margin = options.margin === undefined ? undefined : measureAmount(options.margin, on, '--margin');
  const rules = houseRules(asked.scenario.houseRules ?? {});
  return async (study) =>
    howManyAnswer(
      asked.scenario.name,
      await sweep(study, varied, {
        replications,
        on,
        // A loop that stands still spills nothing: unless one measure is named, balls must pass as well.
        also: options.on === undefined && limit === undefined ? ['throughput_bps'] : [],
        ...(limit !== undefined && { limit, rules }),
        ...(margin !== undefined && { margin }),
        ...((least || most) && { want: least ? 'least' : 'most' }),
      }),
      notes,
      `npx lapwright compare ${[shellWord(asked.scenario.source.file), ...asked.changes.map(typedChange)].join(' ')}`,
      rules,
    );
}
