import { requireParameter } from '../errors/index.js';
import {
  possibilities,
  RAN_OVER,
  type SplitReading,
  type SplitStart,
  toSplitStart,
} from '../experiments/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { clopperPearson, clumpedRateInterval, type Estimate, momentsOf } from '../statistics/index.js';
import { nextLevels, type SplitLevel } from './splitLevels.js';
import type { Study } from './study.js';
import { type System, system } from './system.js';

/** Shows of each stage of the pilot, which looks for the levels. */
const PILOT = 60;
/** Stages at most: each finds a level or two. */
const MOST_STAGES = 10;
/** Numbers of the shows of the pilot: apart from all that are judged. */
const PILOT_FROM = 2_000_000;
/** A basket that runs over in this share of the shows of the pilot is seen often enough in plain shows. */
const OFTEN = 0.1;

/** How rarely a basket runs over. */
export interface HowRare {
  /** Id of the module whose basket is watched; null for any. */
  readonly module: string | null;
  /** `splitting` of shows as a basket fills, or `plain` shows where that brings nothing. */
  readonly method: 'splitting' | 'plain';
  readonly levels: readonly SplitLevel[];
  /** Chance that a ball spills there in a show, and in a full public hour; balls spilled there per hour. */
  readonly in_a_show: Estimate;
  readonly in_an_hour: Estimate;
  readonly per_hour: Estimate;
  /** Independent starts, and in how many of them a basket ran over on at least one way. */
  readonly starts: number;
  readonly starts_with_spill: number;
  /** How much was simulated, in whole shows: for the estimate, and for finding the levels. */
  readonly shows: number;
  readonly pilot_shows: number;
  /** As many plain shows would make the chance in a show as sharp; null when nothing ran over. */
  readonly worth_shows: number | null;
}

export interface HowRareOptions {
  /** Index of the module whose basket is watched. @default any */
  readonly place?: number;
  /** Independent starts. */
  readonly starts: number;
  /** @default 0.95 */
  readonly confidence?: number;
}

/**
 * The chance that a basket runs over, when it is too small to be seen in a hundred shows: by multilevel splitting (see
 * readSplit). First some shows find out how full the basket gets, and at which levels to split; then independent starts
 * are judged, which had no part in that.
 *
 * @throws ParameterError when an option cannot be used, or the basket cannot run over at all
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * (await howRare(study, exampleLoop, { starts: 2 })).starts // => 2
 */
export async function howRare(study: Study, spec: LoopSpec, options: HowRareOptions): Promise<HowRare> {
  const { place, starts, confidence = 0.95 } = options;
  requireParameter(
    Number.isSafeInteger(starts) && starts >= 2 && starts <= PILOT_FROM / 2,
    'howRare',
    'starts',
    starts,
    `a whole number from 2 to ${PILOT_FROM / 2}`,
  );
  const places = watchable(spec).filter((m) => place === undefined || m === place);
  requireParameter(places.length > 0, 'howRare', 'place', place, 'a module whose basket can run over');
  const { levels, pilotShows } = await findLevels(study, spec, places);
  const found = split(spec, places, levels);
  study.expect([found], starts);
  await study.simulate([found], starts);
  const rows = startsOf(study, found, starts, 0);
  const interval = (value: (start: SplitStart) => number, most: number): Estimate =>
    chanceInterval(rows.map(value), confidence, most);
  const chances = rows.map(({ chance }) => chance);
  const inAShow =
    levels.length > 0 ? chanceInterval(chances, confidence, 1) : plainChance(chances, confidence);
  return {
    module: place === undefined ? null : (spec.modules[place]?.id ?? null),
    method: levels.length > 0 ? 'splitting' : 'plain',
    levels,
    in_a_show: inAShow,
    in_an_hour: interval(({ hoursShare }) => hoursShare, 1),
    per_hour: interval(({ ballsPerHour }) => ballsPerHour, Infinity),
    starts,
    starts_with_spill: rows.filter(({ chance }) => chance > 0).length,
    shows: rows.reduce((sum, { shows }) => sum + shows, 0),
    pilot_shows: pilotShows,
    worth_shows: worth(rows),
  };
}

/**
 * Places whose basket can run over.
 *
 * @example
 * watchable(exampleLoop) // => [0, 1]
 */
export function watchable(spec: LoopSpec): number[] {
  return possibilities(spec).places.flatMap(({ spill }, m) =>
    spill && (spec.modules[m]?.basket.capacity ?? 0) > 0 ? m : [],
  );
}

function split(spec: LoopSpec, places: readonly number[], levels: readonly SplitLevel[]): System {
  const reading: SplitReading = { kind: 'split', places, levels };
  return system('starts', spec, reading);
}

function startsOf(study: Study, loop: System, count: number, from: number): SplitStart[] {
  return Array.from({ length: count }, (_, r) => toSplitStart(study.row(loop, from + r)));
}

/** Shows that find out where the levels should be, stage by stage: those of a stage are split at the levels known so far. */
async function findLevels(
  study: Study,
  spec: LoopSpec,
  places: readonly number[],
): Promise<{ readonly levels: readonly SplitLevel[]; readonly pilotShows: number }> {
  const levels: SplitLevel[] = [];
  let pilotShows = 0;
  for (let stage = 0; stage < MOST_STAGES; stage++) {
    const loop = split(spec, places, levels);
    const from = PILOT_FROM + stage * PILOT;
    study.expect([loop], PILOT, from);
    await study.simulate([loop], PILOT, from);
    const rows = startsOf(study, loop, PILOT, from);
    pilotShows += rows.reduce((sum, { shows }) => sum + shows, 0);
    const last = levels.at(-1)?.share ?? 0;
    const peaks = rows.flatMap((start) => start.peaks).filter((peak) => peak >= last);
    const over = peaks.filter((peak) => peak === RAN_OVER).length;
    const often = levels.length === 0 && over >= OFTEN * peaks.length;
    const next = often ? [] : nextLevels(peaks, last);
    if (next.length === 0) break;
    levels.push(...next);
  }
  return { levels, pilotShows };
}

/** Mean over the starts, most of which may be zero; when all are zero or all one, what so many plain shows would say. */
function chanceInterval(values: readonly number[], confidence: number, most: number): Estimate {
  const moments = momentsOf(values);
  const seen = values.filter((value) => value > 0).length;
  const interval = clumpedRateInterval(moments, seen, confidence);
  if (most === 1 && moments.count > 0) {
    if (seen === 0) return { ...interval, low: 0, high: clopperPearson(0, values.length, confidence).high };
    if (moments.variance === 0 && moments.mean === 1)
      return { ...interval, low: clopperPearson(seen, seen, confidence).low, high: 1 };
  }
  return interval.high === null ? interval : { ...interval, high: Math.min(most, interval.high) };
}

/** Of plain shows each is one in which a basket ran over, or not. */
function plainChance(chances: readonly number[], confidence: number): Estimate {
  const seen = chances.filter((chance) => chance > 0).length;
  const replications = chances.length;
  const { low, high } = clopperPearson(seen, replications, confidence);
  return { mean: seen / replications, low, high, confidence, replications };
}

/** Plain shows with the standard error of these starts: p (1 - p) / se^2. */
function worth(rows: readonly SplitStart[]): number | null {
  const { mean, variance, count } = momentsOf(rows.map(({ chance }) => chance));
  // Plain shows are worth themselves.
  if (rows.every(({ peaks }) => peaks.length === 1)) return count;
  return variance > 0 ? (mean * (1 - mean)) / (variance / count) : null;
}
