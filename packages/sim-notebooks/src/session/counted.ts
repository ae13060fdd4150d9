import { fitLogs, scenarioWithFits } from '@lapwright/sim-core';
import { asLoop, loopOf, type LoopSource, placeOf } from './load.js';
import type { Loop } from './loop.js';
import { plainly } from './plainly.js';
import { type FitLogsOptions, secondsOf } from './questions/fit.js';

/**
 * The loop with what logs say of its modules put in, and what was counted: `inline` then keeps in mind how little that is. A
 * module that is new waits on the side table.
 *
 * @param logs one CSV file or several
 * @example
 * counted('scenarios/village-hall.yaml', 'scenarios/lantern-stairs-bench.csv').sideTable // => ['nine-lives', 'lantern-stairs']
 */
export function counted(
  loop: LoopSource,
  logs: string | readonly string[],
  options: Omit<FitLogsOptions, 'loop'> = {},
): Loop {
  return plainly(() => {
    const { origin, scenario } = asLoop(loop);
    const { reach, ...rest } = options;
    const names = typeof logs === 'string' ? [logs] : logs;
    const fitted = fitLogs(names.map(placeOf), scenario, { ...rest, reach: secondsOf(reach) });
    const file = `${origin.file} with ${names.join(', ')}`;
    return loopOf(scenarioWithFits(origin.text, file, scenario, fitted), file);
  });
}
