import { matchQuestion } from '@lapwright/sim-core';
import { ask } from '../ask.js';
import { type LoopSource, placeOf } from '../load.js';
import type { Reply } from '../reply.js';
import type { SimulationOptions } from '../simulating.js';

/** How a loop is held against logs. */
export interface MatchLoopOptions extends SimulationOptions {
  /** Shows to hold it against. @default 199 */
  readonly replications?: number;
  /** Day of the show on which the log begins. @default 1 */
  readonly day?: number;
}

/**
 * Says whether a loop matches what was logged at a show, module by module. Write `await` before it.
 *
 * @param logs one CSV file or several
 * @returns the answer, for `show`, `table` and `explain`
 * @example
 * (await match('scenarios/village-hall.yaml', 'scenarios/lantern-stairs-bench.csv')).verdict // => 'nothing to compare'
 */
export function match(
  loop: LoopSource,
  logs: string | readonly string[],
  options: MatchLoopOptions = {},
): Promise<Reply> {
  const { replications = 199, day = 1 } = options;
  const names = typeof logs === 'string' ? [logs] : logs;
  return ask([loop], options, async (study, [{ scenario }]) => ({
    parts: await matchQuestion(scenario, names.map(placeOf), { replications, day, names }).ask(study),
  }));
}
