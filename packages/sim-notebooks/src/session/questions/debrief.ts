import { debriefQuestion } from '@lapwright/sim-core';
import { ask } from '../ask.js';
import { asLoop, type LoopSource, placeOf } from '../load.js';
import { checkedMeasure, type MeasureName } from '../measureName.js';
import type { Reply } from '../reply.js';
import type { SimulationOptions } from '../simulating.js';

/** How a show is told afterwards. */
export interface DebriefLogsOptions extends SimulationOptions {
  /** The loop of the show: who built what, and what mending would bring. @default nothing is simulated */
  readonly loop?: LoopSource;
  /** Shows of each at most, for what mending would bring. @default 16 */
  readonly replications?: number;
  /** What mending is measured by. @default spills_per_hour */
  readonly on?: MeasureName;
}

/**
 * Tells what each module did at a show, fair about small numbers. Write `await` before it.
 *
 * @param logs one CSV file or several
 * @returns the answer, for `show`, `table` and `explain`
 * @example
 * (await debrief('scenarios/demo-weekend.csv')).verdict // => 'some stand out'
 */
export function debrief(logs: string | readonly string[], options: DebriefLogsOptions = {}): Promise<Reply> {
  const { loop, replications = 16 } = options;
  const names = typeof logs === 'string' ? [logs] : logs;
  const loops: readonly LoopSource[] = loop === undefined ? [] : [loop];
  return ask(loops, options, async (study) => {
    const { ask: parts } = debriefQuestion(names.map(placeOf), {
      names,
      replications,
      on: checkedMeasure(options.on),
      ...(loop !== undefined && { scenario: asLoop(loop).scenario }),
    });
    return { parts: await parts(study) };
  });
}
