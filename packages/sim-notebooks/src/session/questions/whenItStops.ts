import { whenStopsQuestion } from '@lapwright/sim-core';
import { ask } from '../ask.js';
import type { LoopSource } from '../load.js';
import { type Amount, secondsOf, surenessOf, type Time, wholeOf } from '../optionValues.js';
import type { Reply } from '../reply.js';
import type { SimulationOptions } from '../simulating.js';
import { saidTwice } from './saidTwice.js';

/** When and how long a module stops, and what is looked at. */
export interface WhenItStopsLoopOptions extends SimulationOptions {
  /** Pairs of shows, with the stop and without. @default 400 */
  readonly replications?: number;
  /** How long it stops. @default '5 min' */
  readonly for?: Time;
  /** Instead: until a minder, who comes as the file says, has worked on it for so long. */
  readonly clearedIn?: Time;
  /** Now is `'14:00'`, `'day 2 14:00'`, or `'90 min'` after the opening. @default when the loop has settled */
  readonly at?: string;
  /** Instead: now is the opening with these levels, `{ gatehouse: 40 }`; the rest of the balls is in the other baskets. */
  readonly levels?: Readonly<Record<string, number>>;
  /** How long to watch the loop afterwards. @default '30 min' */
  readonly watch?: Time;
  /** How sure it is to be that nothing falls. @default '95 %' */
  readonly sure?: Amount;
  /** How long you need to put a spare or a plain chute in. @default as the file says */
  readonly swapTakes?: Time;
}

/**
 * One module stops now: how soon its basket floods, how many balls fall, when all is calm again, and by when to act. Write
 * `await` before it.
 *
 * @param module the module that stops
 * @returns the answer, for `show`, `table` and `explain`
 * @throws InputError when there is no such module, or the moment or the levels make no sense
 * @example
 * (await whenItStops('scenarios/chain-of-five.yaml', 'second', { for: '2 min', replications: 4 })).answer.question // => 'when-stops'
 */
export function whenItStops(
  loop: LoopSource,
  module: string,
  options: WhenItStopsLoopOptions = {},
): Promise<Reply> {
  const { replications = 400, clearedIn, at, levels, watch = '30 min', sure = '95 %', swapTakes } = options;
  return ask([loop], options, async (study, [{ scenario }]) => {
    if (options.for !== undefined && clearedIn !== undefined)
      throw saidTwice('clearedIn', 'how long it stops', 'for');
    if (at !== undefined && levels !== undefined) throw saidTwice('levels', 'when it stops', 'at');
    const question = whenStopsQuestion(scenario, module, {
      replications: wholeOf('replications', replications, 2),
      watch: secondsOf('watch', watch),
      sure: surenessOf('sure', sure),
      ...(options.for !== undefined && { for: secondsOf('for', options.for) }),
      ...(clearedIn !== undefined && { clearedIn: secondsOf('clearedIn', clearedIn) }),
      ...(at !== undefined && { at }),
      ...(levels !== undefined && { levels: typedLevels(levels) }),
      ...(swapTakes !== undefined && { swapTakes: secondsOf('swapTakes', swapTakes) }),
    });
    return { parts: await question(study) };
  });
}

function typedLevels(levels: Readonly<Record<string, number>>): string {
  return Object.entries(levels)
    .map(([module, balls]) => `${module}=${balls}`)
    .join(',');
}
