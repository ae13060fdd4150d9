import { buildDistribution, type DistributionSpec } from '../distributions/index.js';
import { requireParameter } from '../errors/index.js';
import { roughCut } from '../estimates/index.js';
import { type FloodReading, leversFor, NOT_SEEN } from '../experiments/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { clusteredQuantile, type Estimate } from '../statistics/index.js';
import { settledAfter } from './settled.js';
import type { Study } from './study.js';
import { system } from './system.js';

/** What hands can do first when a module stands still. */
export interface FirstAid {
  /** Set a lever; put something else in its place; or nothing that the file knows of: take balls out by hand. */
  readonly kind: 'lever' | 'swap' | 'by_hand';
  /** The module of the lever, or what goes in. */
  readonly what: string;
  /** Hands are busy with it so long; the time that 19 of 20 take no longer than. */
  readonly takes_s: number;
  /** Begin within so many seconds, and in 19 of 20 cases no ball falls; null when it need not be hurried. */
  readonly within_s: number | null;
}

/** One line of the card. */
export interface FloodLine {
  readonly id: string;
  readonly title?: string;
  readonly builder?: string;
  readonly when_full: 'spill' | 'back_up' | 'return';
  /** Where its balls go when it sends them back. */
  readonly returns_to?: string;
  /**
   * Seconds from the stop until a ball finds no room: in one of twenty cases, in half of them, in 19 of twenty; null
   * where it lies beyond what was watched.
   */
  readonly p05: Estimate;
  readonly p50: Estimate;
  readonly p95: Estimate;
  /** Moments at which it was running and in its place. */
  readonly seen: number;
  /** Reckoned without chance, because the run-out before it has no length that could be looked at. */
  readonly reckoned: boolean;
  readonly first: FirstAid;
}

/** How soon each basket floods when its module stops, at any moment of the show. */
export interface FloodCard {
  readonly modules: readonly FloodLine[];
  /** Later than this was not looked for, seconds. */
  readonly watched_s: number;
  /** Moments looked at lie from here to there, public seconds after the opening. */
  readonly from_s: number;
  readonly to_s: number;
  readonly replications: number;
  /** In each show. */
  readonly moments: number;
}

export interface FloodCardOptions {
  readonly replications: number;
  /** Moments in each show. @default 8 */
  readonly moments?: number;
  /** @default 1800 */
  readonly watchSeconds?: number;
  /** @default 0.95 */
  readonly confidence?: number;
}

/**
 * How soon each basket floods when its module stops: in each show some random moments are looked at, and at each all
 * modules in turn are imagined stopped. One set of shows tells all of them, because a stopped module holds back none of
 * those before it, so that balls come to it as they do anyway.
 *
 * @throws ParameterError when an option cannot be used
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * (await floodCard(study, exampleLoop, { replications: 3 })).modules.length // => 2
 */
export async function floodCard(study: Study, spec: LoopSpec, options: FloodCardOptions): Promise<FloodCard> {
  const { replications, moments = 8, watchSeconds = 1800, confidence = 0.95 } = options;
  for (const [name, value, least] of [
    ['replications', replications, 2],
    ['moments', moments, 1],
  ] as const)
    requireParameter(
      Number.isSafeInteger(value) && value >= least,
      'floodCard',
      name,
      value,
      `a whole number from ${least}`,
    );
  requireParameter(watchSeconds > 0, 'floodCard', 'watchSeconds', watchSeconds, 'a number above 0');
  const from = settledAfter(spec);
  const watched = Math.min(watchSeconds, (spec.show.seconds - from) / 2);
  const to = spec.show.seconds - watched;
  const reading: FloodReading = { kind: 'flood', fromSeconds: from, toSeconds: to, moments };
  const loop = system('every basket', spec, reading);
  study.expect([loop], replications);
  await study.simulate([loop], replications);
  const rows = Array.from({ length: replications }, (_, r) => study.row(loop, r));
  const without = roughCut(spec).modules;
  const modules = spec.modules.map((module, m): FloodLine => {
    const waits = rows.map((row) =>
      row
        .filter((value, i) => i % spec.modules.length === m && !Number.isNaN(value))
        .map((value) => (value === NOT_SEEN || value > watched ? Infinity : value)),
    );
    const reckoned = isUnseen(spec, m);
    const fluid = without[m]?.floodsAfterSeconds ?? Infinity;
    const at = (share: number): Estimate =>
      reckoned
        ? { mean: fluid > watched ? null : fluid, low: null, high: null, confidence, replications: 0 }
        : clusteredQuantile(waits, share, confidence);
    const { id, title, builder, basket } = module;
    const p05 = at(0.05);
    return {
      id,
      ...(title !== undefined && { title }),
      ...(builder !== undefined && { builder }),
      when_full: basket.whenFull.kind,
      ...(basket.whenFull.kind === 'return' && { returns_to: spec.modules[basket.whenFull.to]?.id ?? '' }),
      p05,
      p50: at(0.5),
      p95: at(0.95),
      seen: waits.flat().length,
      reckoned,
      first: firstAid(spec, m, p05.mean),
    };
  });
  return { modules, watched_s: watched, from_s: from, to_s: to, replications, moments };
}

/** Where balls drop from one mechanism straight into a basket that backs up, no run-out shows them coming. */
function isUnseen({ modules, supply }: LoopSpec, m: number): boolean {
  if (modules[m]?.basket.whenFull.kind !== 'back_up') return false;
  const travel = modules[m > 0 ? m - 1 : modules.length - 1]?.travel;
  return travel?.family === 'constant' && travel.value === 0 && (m > 0 || supply.kind === 'charge');
}

/** The lever nearest to it, or what goes in first, or hands. */
function firstAid(spec: LoopSpec, m: number, floods: number | null): FirstAid {
  const { modules, spares = [] } = spec;
  const usually = (spread: DistributionSpec): number => buildDistribution(spread).quantile(0.95);
  const within = (seconds: number): number | null => (floods === null ? null : floods - seconds);
  const watching = leversFor(spec, m);
  const nearest = watching.toSorted((a, b) => way(spec, a, m) - way(spec, b, m))[0];
  const lever = nearest === undefined ? undefined : modules[nearest]?.lever;
  if (nearest !== undefined && lever) {
    const takes = usually(lever.takes);
    return {
      kind: 'lever',
      what: modules[nearest]?.id ?? '',
      takes_s: takes,
      // What has been let go before the lever stands still comes.
      within_s: within(takes + way(spec, nearest, m)),
    };
  }
  const pull = modules[m]?.pull;
  if (pull) {
    const takes = usually(pull.swap);
    const spare = pull.spares[0];
    const what = spare === undefined ? 'a plain chute' : (spares[spare]?.id ?? '');
    return { kind: 'swap', what, takes_s: takes, within_s: within(takes) };
  }
  return { kind: 'by_hand', what: '', takes_s: 0, within_s: null };
}

/** Seconds from the run-out of one place to the basket of another, with what lies between. */
function way({ modules }: LoopSpec, from: number, to: number): number {
  let seconds = 0;
  for (let m = from; m !== to; m = (m + 1) % modules.length) {
    const { travel, cycle } = modules[m] ?? {};
    seconds += travel ? buildDistribution(travel).mean : 0;
    if (m !== from && cycle) seconds += buildDistribution(cycle).mean;
  }
  return seconds;
}
