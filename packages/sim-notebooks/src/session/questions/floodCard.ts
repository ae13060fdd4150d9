import { floodCard as cardOf, floodCardAnswer } from '@lapwright/sim-core';
import { ask } from '../ask.js';
import type { LoopSource } from '../load.js';
import { secondsOf, type Time, wholeOf } from '../optionValues.js';
import type { Reply } from '../reply.js';
import type { SimulationOptions } from '../simulating.js';

/** How many moments are looked at. */
export interface FloodCardLoopOptions extends SimulationOptions {
  /** How many shows. @default 60 */
  readonly replications?: number;
  /** Moments looked at in each show. @default 8 */
  readonly moments?: number;
  /** Later than this is not looked for. @default '30 min' */
  readonly watch?: Time;
}

/**
 * Says how soon each basket floods if its module stops, and what to do first: a card for the table. Write `await` before it.
 *
 * @returns the answer, for `show`, `table` and `explain`
 * @example
 * (await floodCard('scenarios/chain-of-five.yaml', { replications: 3 })).answer.question // => 'flood-card'
 */
export function floodCard(loop: LoopSource, options: FloodCardLoopOptions = {}): Promise<Reply> {
  const { replications = 60, moments = 8, watch = '30 min' } = options;
  return ask([loop], options, async (study, [{ name, scenario }]) => {
    const card = await cardOf(study, scenario.spec, {
      replications: wholeOf('replications', replications, 2),
      moments: wholeOf('moments', moments, 1),
      watchSeconds: secondsOf('watch', watch),
    });
    return { parts: floodCardAnswer(name, card, scenario.source.file) };
  });
}
