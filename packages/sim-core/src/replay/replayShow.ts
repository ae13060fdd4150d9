import type { Scenario } from '../scenario/index.js';
import type { LogEntry } from './logEntry.js';
import { replay, type Timeline } from './replay.js';
import { storyOf, type StoryLine } from './story.js';
import { type TimeWindow, wholeShow } from './timeWindow.js';
import { type WindowTotals, windowTotals } from './windowTotals.js';
import { worstHour } from './worstHour.js';
import type { WorstShow } from './worstShow.js';

/** Which show is replayed, and how much of it is told. */
export interface ReplayShowOptions {
  readonly seed: number;
  /** Number of the replication, from 0. */
  readonly replication: number;
  /** How it was chosen, when it was. */
  readonly worst?: WorstShow;
  /** What is told; without it the whole show, or the worst hour of a show that was chosen for being the worst. */
  readonly window?: TimeWindow;
  /** Whether timelines are recorded. @default false */
  readonly pictures?: boolean;
}

/** A replayed show, ready to be told. */
export interface ReplayedShow {
  readonly scenario: Scenario;
  readonly seed: number;
  readonly replication: number;
  readonly worst?: WorstShow;
  /** What is told. */
  readonly window: TimeWindow;
  /** Everything that happened in the whole show. */
  readonly log: readonly LogEntry[];
  readonly story: readonly StoryLine[];
  readonly totals: WindowTotals;
  /** Of the window, and of the whole show if that is longer; empty when none were asked for. */
  readonly timelines: readonly Timeline[];
}

/**
 * Replays one show of a scenario and tells a window of it.
 *
 * @throws ParameterError, LimitError, SimulationError as `simulate` does
 * @example
 * replayShow(exampleScenario, { seed: 1, replication: 0 }).window // => { from: 0, to: 3600 }
 */
export function replayShow(scenario: Scenario, options: ReplayShowOptions): ReplayedShow {
  const { seed, replication, worst, pictures = false } = options;
  const { spec } = scenario;
  const whole = wholeShow(spec.show);
  const chosen = options.window ?? (worst === undefined ? whole : undefined);
  const windows = ({ from, to }: TimeWindow): TimeWindow[] =>
    !pictures ? [] : from === whole.from && to === whole.to ? [whole] : [{ from, to }, whole];
  let { log, timelines } = replay(spec, { seed, replication, windows: chosen ? windows(chosen) : [] });
  const window = chosen ?? worstHour(log, spec.show, worst?.figure) ?? whole;
  // Which hour is the worst is known only now; its picture needs another look.
  if (chosen === undefined && pictures)
    ({ log, timelines } = replay(spec, { seed, replication, windows: windows(window) }));
  return {
    scenario,
    seed,
    replication,
    ...(worst && { worst }),
    window,
    log,
    story: storyOf(log, window, spec),
    totals: windowTotals(log, window, spec.show),
    timelines,
  };
}
