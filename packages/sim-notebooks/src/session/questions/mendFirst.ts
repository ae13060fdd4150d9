import { mendFirst as mendFirstOf, mendFirstAnswer } from '@lapwright/sim-core';
import { ask } from '../ask.js';
import type { LoopSource } from '../load.js';
import { checkedMeasure, type MeasureName } from '../measureName.js';
import type { Reply } from '../reply.js';
import type { SimulationOptions } from '../simulating.js';

/** How the modules are to be ranked. */
export interface MendFirstLoopOptions extends SimulationOptions {
  /** Shows of each at most. @default 16 */
  readonly replications?: number;
  /** The figure that decides. @default spills_per_hour */
  readonly on?: MeasureName;
  /** How many of the first to find for sure. @default 3 */
  readonly places?: number;
}

/**
 * Ranks the modules by what the show gains if they never stopped: which to mend first. Write `await` before it.
 *
 * @returns the answer, for `show`, `table` and `explain`
 * @example
 * (await mendFirst('scenarios/chain-of-five.yaml', { replications: 3 })).answer.question // => 'mend-first'
 */
export function mendFirst(loop: LoopSource, options: MendFirstLoopOptions = {}): Promise<Reply> {
  const { replications = 16, places = 3 } = options;
  return ask([loop], options, async (study, [{ name, scenario }]) => {
    const on = checkedMeasure(options.on);
    return {
      parts: mendFirstAnswer(name, await mendFirstOf(study, scenario.spec, { replications, on, places })),
    };
  });
}
