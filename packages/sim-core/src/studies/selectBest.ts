import { requireParameter } from '../errors/index.js';
import { isCertain, MEASURES, measureIndex } from '../experiments/index.js';
import { areAlike, type Estimate, momentsOf, ofAlike, welchDifference } from '../statistics/index.js';
import { measureEstimate } from './measureEstimate.js';
import { pairedOverShows } from './overShows.js';
import { selectInStages } from './selectInStages.js';
import { selectInTurn } from './selectInTurn.js';
import type { Study } from './study.js';
import type { System } from './system.js';

/** How the best of several is to be found. */
export interface SelectBestOptions {
  /** Shows of each at most. */
  readonly replications: number;
  /** The measure that decides. @default spills_per_hour */
  readonly on?: string;
  /** Differences below this do not matter, in the measure's own unit. @default 5 % of the first one's mean in the first look */
  readonly zone?: number;
  /** Chance that the best is named, if it leads by the zone. @default 0.95 */
  readonly confidence?: number;
  /** Each with luck of its own instead of the same luck for all. @default false */
  readonly independent?: boolean;
  /** Shows of each before the first look. @default 10 */
  readonly firstLook?: number;
}

/** How one of them did. */
export interface Contender {
  readonly label: string;
  /** The measure over its shows, as far as it went. */
  readonly mean: Estimate;
  /** How much worse than the one named, or than the leader; null for that one itself. */
  readonly behind: Estimate | null;
  /** Its shows that counted. */
  readonly shows: number;
  /** Shows after which it was clear that it cannot be the best; null when it was kept to the end. */
  readonly dropped_after: number | null;
}

/** Which of several is the best, or among which the best is. */
export interface BestOf {
  readonly on: string;
  /** In turn: all show by show with the same luck. In two stages: each with luck of its own. */
  readonly procedure: 'in turn' | 'two stages';
  readonly verdict: 'best' | 'one of these' | 'nothing to choose by';
  /** The one that is named; null when more than one is left. */
  readonly best: string | null;
  /** Those among which the best is; one when it is named. */
  readonly left: readonly string[];
  /** Chance that this is right, at least, if the best leads by the zone. */
  readonly promised: number;
  /** The chance asked for; also that of the intervals. */
  readonly confidence: number;
  readonly zone: number;
  /** The one off whose first look the zone was read; null when it was given. */
  readonly zone_from: string | null;
  readonly first_look: number;
  /** Shows of each at most. */
  readonly most: number;
  /** Shows of each that it would take at most for one to be named; null when nothing is known of that. */
  readonly enough: number | null;
  /** Shows left out because one of those compared had nothing to measure. */
  readonly left_out: number;
  /** The one named or leading first, then as good as they are. */
  readonly contenders: readonly Contender[];
}

/** What does not matter, as a share of the mean of the first one, unless said otherwise. */
const ZONE_SHARE = 0.05;

/**
 * Finds the best of several systems with a promised chance, where differences below the zone do not matter: by the fully
 * sequential procedure of Kim and Nelson on shows with the same luck (see `kimNelson`), or in Rinott's two stages with luck
 * of their own (see `rinottSecondStage`). When the shows run out before one is left, it names those among which the best is
 * (see `subsetPaired`, `subsetIndependent`).
 *
 * A zone that is not given is read off the first look only, and so before anything is dropped.
 *
 * @param systems two or more, all different; the first is what the others are measured by
 * @throws ParameterError when an option cannot be used
 * @throws InputError when the measure has no value in as many shows as the first look takes
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const short = { ...exampleLoop, supply: { kind: 'charge', placed: [1, 0] } };
 * const systems = [system('twenty balls', exampleLoop), system('one ball', short)];
 * (await selectBest(study, systems, { replications: 10, on: 'throughput_bps', firstLook: 3 })).best // => 'twenty balls'
 */
export async function selectBest(
  study: Study,
  systems: readonly System[],
  options: SelectBestOptions,
): Promise<BestOf> {
  const { replications, on = 'spills_per_hour', zone, confidence = 0.95 } = options;
  const { independent = false, firstLook = 10 } = options;
  const require = (ok: boolean, name: string, found: unknown, rule: string): void =>
    requireParameter(ok, 'selectBest', name, found, rule);
  const keys = new Set(systems.map(({ key }) => key));
  require(systems.length >= 2 &&
    keys.size === systems.length, 'systems', systems.length, 'two or more, all different');
  require(Number.isSafeInteger(firstLook) && firstLook >= 2, 'firstLook', firstLook, 'a whole number from 2');
  require(Number.isSafeInteger(replications) &&
    replications >= firstLook, 'replications', replications, `a whole number from ${firstLook}`);
  require(zone === undefined || (zone > 0 && zone < Infinity), 'zone', zone, 'a finite number above 0');
  require(confidence > 0.5 && confidence < 1, 'confidence', confidence, 'above 0.5 and below 1');
  const sign = MEASURES[measureIndex(on)]?.better === 'more' ? 1 : -1;
  const certain = systems.every(({ spec }) => isCertain(on, spec));
  let zoneFrom: number | null = null;
  const selected = await (independent ? selectInStages : selectInTurn)({
    study,
    systems,
    on,
    sign,
    cap: replications,
    firstLook,
    confidence,
    certain,
    zoneOf: (first) => {
      if (zone !== undefined) return zone;
      const read = zoneOff(first);
      zoneFrom = read.from;
      return read.zone;
    },
  });
  const { values, left, droppedAfter } = selected;
  const means = values.map((column) => sign * momentsOf(column).mean);
  const leader = left.reduce((best, i) => (at(means, i) > at(means, best) ? i : best), left[0] ?? 0);
  const rank = (i: number): number => (i === leader ? 0 : left.includes(i) ? 1 : 2);
  const behind = (i: number): Estimate =>
    differenceOf(values[leader] ?? [], values[i] ?? [], sign, { confidence, independent, certain });
  const order = systems
    .map((_, i) => i)
    .toSorted((a, b) => rank(a) - rank(b) || (behind(a).mean ?? 0) - (behind(b).mean ?? 0) || a - b);
  const label = (i: number): string => systems[i]?.label ?? '';
  return {
    on,
    procedure: independent ? 'two stages' : 'in turn',
    verdict: selected.zone === 0 ? 'nothing to choose by' : left.length === 1 ? 'best' : 'one of these',
    best: left.length === 1 ? label(leader) : null,
    left: order.filter((i) => left.includes(i)).map(label),
    promised: selected.promised,
    confidence,
    zone: selected.zone,
    zone_from: zoneFrom === null ? null : label(zoneFrom),
    first_look: selected.firstLook,
    most: replications,
    enough: selected.enough,
    left_out: selected.leftOut,
    contenders: order.map((i): Contender => ({
      label: label(i),
      mean: measureEstimate(on, values[i] ?? [], {
        show: (systems[i] as System).spec.show,
        confidence,
        certain: isCertain(on, (systems[i] as System).spec),
      }),
      behind: i === leader ? null : behind(i),
      shows: values[i]?.length ?? 0,
      dropped_after: droppedAfter.get(i) ?? null,
    })),
  };
}

/** A share of the mean of the first one, or of the one with the largest where that is 0. */
function zoneOff(first: readonly (readonly number[])[]): { readonly zone: number; readonly from: number } {
  const means = first.map((column) => Math.abs(momentsOf(column).mean));
  const from = means[0] === 0 ? means.indexOf(Math.max(...means)) : 0;
  return { zone: ZONE_SHARE * at(means, from), from };
}

/** How much worse `other` is than `leader`: over the shows they share, or over all of both with luck of their own. */
function differenceOf(
  leader: readonly number[],
  other: readonly number[],
  sign: 1 | -1,
  {
    confidence,
    independent,
    certain,
  }: { readonly confidence: number; readonly independent: boolean; readonly certain: boolean },
): Estimate {
  const both = Math.min(leader.length, other.length);
  const turned = (column: readonly number[]): number[] => column.map((x) => sign * x);
  const [here, there] = [turned(other), turned(leader)];
  if (!independent)
    return pairedOverShows(here.slice(0, both), there.slice(0, both), confidence, certain).difference;
  const [first, second] = [momentsOf(here), momentsOf(there)];
  const { difference } = welchDifference(first, second, confidence);
  // One with values that are all alike tells nothing of its spread, whatever the other does.
  const alike = [first, second].some(({ variance, mean }) => areAlike(variance, Math.abs(mean)));
  const fewer = { ...difference, replications: Math.min(first.count, second.count) };
  return alike ? { ...ofAlike(fewer, certain), replications: difference.replications } : difference;
}

function at(values: readonly number[], index: number): number {
  return values[index] ?? NaN;
}
