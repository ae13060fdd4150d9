import {
  InputError,
  fitLogs,
  type FitQuestionOptions,
  fittedParts,
  parseQuantity,
  toAnswer,
} from '@lapwright/sim-core';
import { asLoop, type LoopSource, placeOf } from '../load.js';
import { plainly } from '../plainly.js';
import { Reply } from '../reply.js';

/** What is known besides the logs. */
export interface FitLogsOptions extends Omit<FitQuestionOptions, 'reach'> {
  /** The loop the modules stand in: causes of stopping that it knows and that were not seen count too. */
  readonly loop?: LoopSource;
  /** What of a stop passed until a hand was there, such as '20 s'. @default nothing */
  readonly reach?: string;
}

/**
 * What logs of the bench or of a show say of modules: cycle, batch, stops and clear times, each with its interval.
 *
 * @param logs one CSV file or several
 * @returns the answer, for `show`, `table` and `explain`
 * @example
 * fit('scenarios/lantern-stairs-bench.csv').verdict // => 'fitted'
 */
export function fit(logs: string | readonly string[], options: FitLogsOptions = {}): Reply {
  return plainly(() => {
    const { loop, reach, ...rest } = options;
    const names = typeof logs === 'string' ? [logs] : logs;
    const scenario = loop === undefined ? undefined : asLoop(loop).scenario;
    const fitted = fitLogs(names.map(placeOf), scenario, { ...rest, reach: secondsOf(reach) });
    const parts = fittedParts(names, fitted, null);
    const next = fitted.fits.length === 0 ? parts.next : ['Put the figures into a loop: counted(loop, log).'];
    const answer = toAnswer({ ...parts, next }, { seed: options.seed ?? 1, scenarios: [], shows: 0 });
    return new Reply(answer);
  });
}

/** A time as typed, in seconds. */
export function secondsOf(time: string | undefined): number {
  if (time === undefined) return 0;
  const read = parseQuantity(time, 'duration');
  if (read.ok && read.value >= 0) return read.value;
  const rule = "this must be a time from 0 with its unit, such as '20 s'";
  throw new InputError([{ code: 'out_of_range', path: 'reach', found: time, rule }]);
}
