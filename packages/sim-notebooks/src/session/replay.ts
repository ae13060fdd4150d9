import { type FigureName, findWorst, readWindow, replayShow } from '@lapwright/sim-core';
import { asLoop, type LoopSource } from './load.js';
import { plainly } from './plainly.js';
import { simulating, type SimulationOptions } from './simulating.js';
import { Stopped } from './stopped.js';
import { Story } from './story.js';

/** Which show is told, and how much of it. */
export interface ReplayLoopOptions extends SimulationOptions {
  /** Number of the show, from 0, as in a run with the same seed. Without it the worst of many is looked for. */
  readonly replication?: number;
  /** By what it is the worst. @default spills */
  readonly worst?: FigureName;
  /** Among how many shows the worst is looked for. @default 100 */
  readonly replications?: number;
  /** What is told: a time of day such as '11:00' or 'day 2 11:00', or '90 min' after the opening. */
  readonly from?: string;
  readonly to?: string;
}

/**
 * Simulates one show again, the same to the last ball, and tells what happened: by its number, or the worst of many (its
 * worst hour, unless told otherwise). Write `await` before it.
 *
 * @returns the story, for `show`, `table` and `explain`
 * @example
 * (await replay('scenarios/chain-of-five.yaml', { replication: 0 })).figures[0].id // => 'timeline'
 */
export function replay(loop: LoopSource, options: ReplayLoopOptions = {}): Promise<Story> {
  const { replication, worst: figure = 'spills', replications = 100, seed = 1, from, to } = options;
  return plainly(async () => {
    const what = asLoop(loop);
    const { scenario } = what;
    const window =
      from === undefined && to === undefined ? undefined : readWindow({ from, to }, scenario.spec.show);
    const told = { seed, ...(window && { window }), pictures: true };
    if (replication !== undefined) return new Story(what, replayShow(scenario, { ...told, replication }));
    const worst = await simulating(options, async ({ signal, workers, loose, onProgress, stoppedText }) => {
      const found = await findWorst(scenario.spec, {
        figure,
        seed,
        replications,
        workers,
        signal,
        onProgress,
        loose,
      });
      if (found.stopped instanceof Error) throw found.stopped;
      if (found.worst === undefined) throw new Stopped(stoppedText());
      return found.worst;
    });
    return new Story(what, replayShow(scenario, { ...told, replication: worst.replication, worst }));
  });
}
