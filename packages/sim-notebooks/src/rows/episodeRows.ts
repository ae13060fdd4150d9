import type { LogEntry, LoopSpec, PlaceState, Timeline, TimeWindow } from '@lapwright/sim-core';
import { onAxis, type TimelineAxis } from './timelineAxis.js';

/** What could be seen at one module for a while: from and to on the axis of a timeline. */
export interface EpisodeRow {
  readonly module: string;
  readonly state: PlaceState;
  readonly from: number;
  readonly to: number;
}

/** Balls that fell at one module within a short while. */
export interface FallRow {
  readonly module: string;
  readonly x: number;
  readonly balls: number;
}

/** What can be seen at a place, in the order and words of the chart. */
export const STATE_WORDS: readonly { readonly state: PlaceState; readonly words: string }[] = [
  { state: 'running', words: 'runs' },
  { state: 'starved', words: 'goes without balls' },
  { state: 'held_up', words: 'held up' },
  { state: 'stopped', words: 'stopped' },
  { state: 'pulled', words: 'pulled, a stand-in runs' },
];

/** Modules that a picture has room for. */
const MOST_MODULES = 60;
/** Narrowest bar, and width within which falling balls are added up, as shares of the window. */
const NARROWEST = 1 / 450;
const ONE_MARK = 1 / 42;

/**
 * Indexes of the modules to be shown, in loop order: all of a loop that fits, and otherwise those where most happened.
 */
export function shownModules(timeline: Timeline, log: readonly LogEntry[], { modules }: LoopSpec): number[] {
  if (modules.length <= MOST_MODULES) return modules.map((_, m) => m);
  const balls = new Float64Array(modules.length);
  const seconds = new Float64Array(modules.length);
  for (const { module, balls: fell = 0 } of spillsIn(log, timeline.window))
    balls[module] = (balls[module] ?? 0) + fell;
  for (const { module, state, from, to } of timeline.episodes) {
    if (state !== 'running' && state !== 'starved') seconds[module] = (seconds[module] ?? 0) + to - from;
  }
  return modules
    .map((_, m) => ({ m, balls: balls[m] ?? 0, seconds: seconds[m] ?? 0 }))
    .filter((module) => module.balls > 0 || module.seconds > 0)
    .toSorted((a, b) => b.balls - a.balls || b.seconds - a.seconds)
    .slice(0, MOST_MODULES)
    .map(({ m }) => m)
    .toSorted((a, b) => a - b);
}

/** The episodes of the shown modules on the axis. */
export function episodeRows(
  timeline: Timeline,
  shown: readonly number[],
  { modules }: LoopSpec,
  axis: TimelineAxis,
): EpisodeRow[] {
  const wanted = new Set(shown);
  const narrowest = NARROWEST * (axis.to - axis.from);
  return timeline.episodes.flatMap(({ module, state, from, to }) => {
    const id = modules[module]?.id;
    if (id === undefined || !wanted.has(module)) return [];
    const [begin, end] = [onAxis(axis, from), onAxis(axis, to)];
    // A stop too short for the scale is shown all the same.
    const shownEnd = state === 'stopped' ? Math.min(axis.to, Math.max(end, begin + narrowest)) : end;
    return [{ module: id, state, from: begin, to: shownEnd }];
  });
}

/** Spills at the shown modules, those close together as one. */
export function fallRows(
  log: readonly LogEntry[],
  window: TimeWindow,
  shown: readonly number[],
  spec: LoopSpec,
  axis: TimelineAxis,
): FallRow[] {
  const wanted = new Set(shown);
  const room = ONE_MARK * (axis.to - axis.from);
  const bouts: { module: number; first: number; balls: number; moment: number }[] = [];
  const last = new Map<number, (typeof bouts)[number]>();
  for (const { module, time, balls = 0 } of spillsIn(log, window)) {
    if (!wanted.has(module)) continue;
    const x = onAxis(axis, time);
    let bout = last.get(module);
    if (bout === undefined || x - bout.first > room) {
      bout = { module, first: x, balls: 0, moment: 0 };
      bouts.push(bout);
      last.set(module, bout);
    }
    bout.balls += balls;
    bout.moment += balls * x;
  }
  return bouts.map(({ module, balls, moment }) => ({
    module: spec.modules[module]?.id ?? '',
    x: moment / balls,
    balls,
  }));
}

function spillsIn(log: readonly LogEntry[], { from, to }: TimeWindow): LogEntry[] {
  return log.filter(({ kind, time }) => kind === 'spills' && time >= from && time <= to);
}
