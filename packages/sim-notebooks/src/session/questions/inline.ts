import { type HouseRuleName, inlineQuestion } from '@lapwright/sim-core';
import { ask, reference } from '../ask.js';
import type { LoopSource } from '../load.js';
import { type Amount, wholeOf } from '../optionValues.js';
import type { Reply } from '../reply.js';
import type { SimulationOptions } from '../simulating.js';
import { saidTwice } from './saidTwice.js';

/** Where a module may go, and what is held against it. At most one of `after`, `before`, `anywhere` and `places`. */
export interface InlineLoopOptions extends SimulationOptions {
  /** Shows of each loop. @default 40 */
  readonly replications?: number;
  /** Put it right behind this module. */
  readonly after?: string;
  /** Put it right before this module. */
  readonly before?: string;
  /** Find the best of all places; done for one from the side table if nothing is said. */
  readonly anywhere?: boolean;
  /** Find the best place right behind one of these. */
  readonly places?: readonly string[];
  /** What could stand in its place. @default the first spare, or a plain chute */
  readonly spare?: string;
  /** Rules of the house instead of those in the file: `{ spills_per_hour: 80, overflow_risk: '50 %' }`. */
  readonly rule?: Readonly<Partial<Record<HouseRuleName, Amount>>>;
  /** Shows to spend on the search for a place. @default 130 */
  readonly search?: number;
  /** All figures at their word, whatever they were counted from. @default false */
  readonly asWritten?: boolean;
  /** How often to draw what was counted, two shows each. @default 200 */
  readonly draws?: number;
}

/**
 * Says whether a module may go into the loop by the rules of the house, where best, and with how many stops an hour. Write
 * `await` before it.
 *
 * @param module one of the loop, or one on the side table
 * @returns the answer, for `show`, `table` and `explain`
 * @throws InputError when there is no such module, place, spare or rule, or no rule at all
 * @example
 * (await inline('scenarios/pull-and-spare.yaml', 'gold-thread', { replications: 5, rule: { spills_per_hour: 500 } })).verdict // => 'inline'
 */
export function inline(loop: LoopSource, module: string, options: InlineLoopOptions = {}): Promise<Reply> {
  const { replications = 40, search = 130, rule = {}, after, before, anywhere, places, spare } = options;
  const { asWritten, draws } = options;
  return ask([loop], options, async (study, [{ origin }]) => {
    const said = Object.entries({ after, before, anywhere, places }).filter(
      ([, value]) => value !== undefined,
    );
    const [[one] = [], [other] = []] = said;
    if (one !== undefined && other !== undefined) throw saidTwice(other, 'where it goes', one);
    const { scenario, ask: question } = inlineQuestion(origin, module, {
      replications: wholeOf('replications', replications, 2),
      search: wholeOf('search', search, 2),
      rule: Object.entries(rule).map(([name, limit]) => `${name}=${limit}`),
      ...(after !== undefined && { after }),
      ...(before !== undefined && { before }),
      ...(anywhere !== undefined && { anywhere }),
      ...(places !== undefined && { places }),
      ...(spare !== undefined && { spare }),
      ...(asWritten !== undefined && { asWritten }),
      ...(draws !== undefined && { draws: wholeOf('draws', draws, 20) }),
    });
    return { parts: await question(study), scenarios: [reference(scenario)] };
  });
}
