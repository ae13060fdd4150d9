import { sparesQuestion } from '@lapwright/sim-core';
import { ask } from '../ask.js';
import type { LoopSource } from '../load.js';
import { checkedMeasure, type MeasureName } from '../measureName.js';
import { type Amount, wholeOf } from '../optionValues.js';
import type { Reply } from '../reply.js';
import type { SimulationOptions } from '../simulating.js';

/** By what spares are judged. */
export interface SparesLoopOptions extends SimulationOptions {
  /** Shows that judge each choice. @default 60 */
  readonly replications?: number;
  /** The figure that decides. @default spills_per_hour, and balls must pass */
  readonly on?: MeasureName;
  /** Differences up to this do not matter. @default 10 % */
  readonly margin?: Amount;
}

/**
 * Says which one or two of the spares are worth bringing. Write `await` before it.
 *
 * @returns the answer, for `show`, `table` and `explain`
 * @example
 * (await spares('scenarios/pull-and-spare.yaml', { replications: 4 })).answer.question // => 'spares'
 */
export function spares(loop: LoopSource, options: SparesLoopOptions = {}): Promise<Reply> {
  const { replications = 60, on, margin } = options;
  return ask([loop], options, async (study, [{ scenario }]) => {
    const question = sparesQuestion(scenario, {
      replications: wholeOf('replications', replications, 2),
      ...(on !== undefined && { on: checkedMeasure(on) }),
      ...(margin !== undefined && { margin: String(margin) }),
    });
    return { parts: await question(study) };
  });
}
