import { type MeasurePlan, type ReplicationResult, simulate } from '../model/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import type { Episode } from './episode.js';
import { EpisodeRecorder } from './episodeRecorder.js';
import type { LogEntry } from './logEntry.js';
import type { TimeWindow } from './timeWindow.js';

/** Which replication is replayed, and what is recorded besides the log. */
export interface ReplayOptions {
  /** Whole number from 0 to 2^53 - 1. */
  readonly seed: number;
  /** Number of the replication, from 0. */
  readonly replication: number;
  /** The measuring grid. @default measurePlan(spec) */
  readonly plan?: MeasurePlan;
  /** Windows of which a picture is wanted. @default none */
  readonly windows?: readonly TimeWindow[];
}

/** What could be seen at every place in a window. */
export interface Timeline {
  readonly window: TimeWindow;
  readonly episodes: readonly Episode[];
}

/** One replication, written down. */
export interface Replay {
  readonly result: ReplicationResult;
  /** Everything that happened, in the order in which it did. */
  readonly log: readonly LogEntry[];
  /** One for each window asked for. */
  readonly timelines: readonly Timeline[];
}

/**
 * Simulates one replication again and writes down what happens. It is the same show to the last bit as in a run with this
 * seed.
 *
 * @throws ParameterError, LimitError, SimulationError as `simulate` does
 * @example
 * replay(exampleLoop, { seed: 1, replication: 0 }).result.measuredSeconds // => 3600
 */
export function replay(spec: LoopSpec, options: ReplayOptions): Replay {
  const { seed, replication, plan, windows = [] } = options;
  const log: LogEntry[] = [];
  const recorders = windows.map((window) => new EpisodeRecorder(spec, window));
  let lost = 0;
  const result = simulate(spec, {
    seed,
    replication,
    ...(plan && { plan }),
    log: (incident) => log.push(incident),
    observe: (view) => {
      if (view.lost > lost) {
        log.push({ time: view.now, kind: 'lost', module: -1, balls: view.lost - lost });
        lost = view.lost;
      }
      for (const recorder of recorders) recorder.observe(view);
    },
  });
  return {
    result,
    log,
    timelines: windows.flatMap((window, i) => {
      const episodes = recorders[i]?.finish();
      return episodes ? [{ window, episodes }] : [];
    }),
  };
}
