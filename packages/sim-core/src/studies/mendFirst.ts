import { requireParameter } from '../errors/index.js';
import { MEASURES, measureIndex } from '../experiments/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import type { Estimate } from '../statistics/index.js';
import { measureDifference } from './compare.js';
import type { Study } from './study.js';
import { type System, system } from './system.js';

/** What the show gains if one module never stopped. */
export interface MendGain {
  readonly id: string;
  readonly builder?: string;
  /** Gain on the measure, good news counted positive, paired with the show as it is. */
  readonly gain: Estimate;
  /** Shows after which it was clear that it cannot be among the first; null when it was kept to the end. */
  readonly dropped_after: number | null;
}

/** The modules in the order in which mending them pays. */
export interface MendFirst {
  readonly on: string;
  /** The measure as the show is. */
  readonly now: Estimate;
  /** Kept to the end first, by gain; then those dropped, by the gain seen until then. */
  readonly modules: readonly MendGain[];
  /** So many places were to be filled for sure. */
  readonly places: number;
}

export interface MendFirstOptions {
  readonly replications: number;
  /** @default spills_per_hour */
  readonly on?: string;
  /** How many of the first are asked for. @default 3 */
  readonly places?: number;
  /** @default 0.95 */
  readonly confidence?: number;
}

/** Shows after which modules are dropped for the first time; then after twice as many each time. */
const FIRST_LOOK = 4;

/**
 * Ranks modules by what the show gains if their stops were cleared away: the same shows with that module's stops off,
 * paired. After 4, 8, 16 ... shows the modules are dropped that cannot be among the first any more: those whose gain is
 * for sure below that of `places` others. All looks and all modules together err with at most 1 - confidence (Bonferroni
 * over looks and modules), so that looking early does not cheat.
 *
 * @throws ParameterError when an option cannot be used
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * (await mendFirst(study, exampleLoop, { replications: 3 })).places // => 3
 */
export async function mendFirst(study: Study, spec: LoopSpec, options: MendFirstOptions): Promise<MendFirst> {
  const { replications, on = 'spills_per_hour', places = 3, confidence = 0.95 } = options;
  requireParameter(
    Number.isSafeInteger(replications) && replications >= 2,
    'mendFirst',
    'replications',
    replications,
    'a whole number from 2',
  );
  const now = system('as it is', spec);
  const sign = MEASURES[measureIndex(on)]?.better === 'more' ? 1 : -1;
  const all = spec.modules.filter(({ stops }) => stops.length > 0).map(({ id }) => id);
  const mended = new Map(all.map((id) => [id, withoutStops(spec, id)]));
  const looks = looksUntil(replications);
  const strict = 1 - (1 - confidence) / (looks.length * Math.max(1, all.length));
  const dropped = new Map<string, number>();
  let left = all;
  let done = 0;
  for (const look of looks) {
    const systems = [now, ...left.map((id) => mended.get(id) as System)];
    study.expect(systems, look - done, done);
    await study.simulate(systems, look - done, done);
    done = look;
    if (look === replications) break;
    const gains = left.map((id) => ({
      id,
      gain: gainOf(study, now, mended.get(id) as System, on, look, strict, sign),
    }));
    const lows = gains.map(({ gain }) => gain.low ?? -Infinity).toSorted((a, b) => b - a);
    const bar = lows[places - 1] ?? -Infinity;
    for (const { id, gain } of gains) if ((gain.high ?? Infinity) < bar) dropped.set(id, look);
    left = left.filter((id) => !dropped.has(id));
  }
  const modules = all.map((id): MendGain => {
    const builder = spec.modules.find((module) => module.id === id)?.builder;
    const shows = dropped.get(id) ?? replications;
    return {
      id,
      ...(builder !== undefined && { builder }),
      gain: gainOf(study, now, mended.get(id) as System, on, shows, confidence, sign),
      dropped_after: dropped.get(id) ?? null,
    };
  });
  return {
    on,
    now: measureDifference(
      on,
      study.column(now, on, replications),
      study.column(now, on, replications),
      confidence,
    ).before,
    places,
    modules: modules.toSorted(
      (a, b) =>
        Number(a.dropped_after !== null) - Number(b.dropped_after !== null) ||
        (b.gain.mean ?? 0) - (a.gain.mean ?? 0),
    ),
  };
}

function withoutStops(spec: LoopSpec, id: string): System {
  const modules = spec.modules.map((module) => (module.id === id ? { ...module, stops: [] } : module));
  return system(`${id} never stops`, { ...spec, modules });
}

function gainOf(
  study: Study,
  now: System,
  mended: System,
  on: string,
  shows: number,
  confidence: number,
  sign: 1 | -1,
): Estimate {
  const { difference } = measureDifference(
    on,
    study.column(now, on, shows),
    study.column(mended, on, shows),
    confidence,
  );
  if (sign === 1) return difference;
  const turned = (value: number | null): number | null => (value === null ? null : 0 - value);
  return {
    ...difference,
    mean: turned(difference.mean),
    low: turned(difference.high),
    high: turned(difference.low),
  };
}

function looksUntil(replications: number): number[] {
  const looks: number[] = [];
  for (let look = FIRST_LOOK; look < replications; look *= 2) looks.push(look);
  return [...looks, replications];
}
