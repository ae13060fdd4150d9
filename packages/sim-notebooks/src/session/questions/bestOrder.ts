import { bestOrderQuestion } from '@lapwright/sim-core';
import { ask } from '../ask.js';
import type { LoopSource } from '../load.js';
import { checkedMeasure, type MeasureName } from '../measureName.js';
import { wholeOf } from '../optionValues.js';
import type { Reply } from '../reply.js';
import type { SimulationOptions } from '../simulating.js';

/** Names of modules: a list, or a text with commas between them. */
export type Names = string | readonly string[];

/** Which orders may be tried, and how many shows that may take. */
export interface BestOrderLoopOptions extends SimulationOptions {
  /** The figure that decides. @default spills_per_hour */
  readonly on?: MeasureName;
  /** These stay in their place: `['gatehouse', 'copper-snail']`. */
  readonly fix?: readonly string[];
  /** Each of these groups stays in one piece: `[['a', 'b', 'c']]`; `['builder']` for the modules of each builder. */
  readonly together?: readonly Names[];
  /** The two of each pair are never side by side: `[['a', 'b']]`. */
  readonly apart?: readonly Names[];
  /** Of each pair, the first is never right after the second. */
  readonly neverRightAfter?: readonly Names[];
  /** Of each pair, the first is never anywhere behind the second. */
  readonly neverBehind?: readonly Names[];
  /** How many modules may be carried elsewhere at most. @default 6 */
  readonly moves?: number;
  /** How many shows to simulate in all; from 40 on. @default 300 */
  readonly budget?: number;
}

/**
 * Looks for a better order of the same modules, and says what each move brings. Write `await` before it.
 *
 * @returns the answer, for `show`, `table` and `explain`
 * @throws InputError when a module is not in the loop, or the rules contradict each other
 * @example
 * (await bestOrder('scenarios/chain-of-five.yaml', { fix: ['first'], budget: 40 })).answer.question // => 'best-order'
 */
export function bestOrder(loop: LoopSource, options: BestOrderLoopOptions = {}): Promise<Reply> {
  const { moves = 6, budget = 600, fix, together, apart, neverRightAfter, neverBehind } = options;
  return ask([loop], options, async (study, [{ origin }]) => {
    const question = bestOrderQuestion(origin, {
      on: checkedMeasure(options.on),
      moves: wholeOf('moves', moves, 1),
      budget: wholeOf('budget', budget, 40),
      ...(fix && { fix }),
      ...(together && { together: together.map(typed) }),
      ...(apart && { apart: apart.map(typed) }),
      ...(neverRightAfter && { neverRightAfter: neverRightAfter.map(typed) }),
      ...(neverBehind && { neverBehind: neverBehind.map(typed) }),
    });
    return { parts: await question(study) };
  });
}

function typed(names: Names): string {
  return typeof names === 'string' ? names : names.join(',');
}
