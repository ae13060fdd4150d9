import { howRareQuestion } from '@lapwright/sim-core';
import { ask } from '../ask.js';
import type { LoopSource } from '../load.js';
import { wholeOf } from '../optionValues.js';
import type { Reply } from '../reply.js';
import type { SimulationOptions } from '../simulating.js';

/** How well it is looked at. */
export interface HowRareLoopOptions extends SimulationOptions {
  /** How many shows are started. @default 200 */
  readonly replications?: number;
}

/**
 * Says how rarely a basket runs over, also when a hundred shows would not see it once. Write `await` before it.
 *
 * @param module whose basket it is; any basket if not given
 * @returns the answer, for `show`, `table` and `explain`
 * @throws InputError when there is no such module, or its basket cannot run over
 * @example
 * (await howRare('scenarios/chain-of-five.yaml', 'second', { replications: 3 })).answer.question // => 'how-rare'
 */
export function howRare(loop: LoopSource, module?: string, options: HowRareLoopOptions = {}): Promise<Reply> {
  const { replications = 200 } = options;
  return ask([loop], options, async (study, [{ scenario }]) => {
    const question = howRareQuestion(scenario, module, {
      replications: wholeOf('replications', replications, 2),
    });
    return { parts: await question(study) };
  });
}
