import { requireParameter } from '../errors/index.js';
import { isCertain, MEASURES, measureIndex } from '../experiments/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import type { Estimate } from '../statistics/index.js';
import { measureEstimate } from './measureEstimate.js';
import { pairedOverShows } from './overShows.js';
import type { ShowOf, Study } from './study.js';
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
  /** So many places were to be filled. */
  readonly places: number;
  /** Shows of the loop as it is. */
  readonly replications: number;
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
const FIRST_LOOK = 8;

/**
 * Ranks modules by what the show gains if their stops were cleared away: the same shows with that module's stops off,
 * paired. In a show in which the module did not stop there is nothing to clear away: the gain is zero and is not simulated.
 *
 * After 8, 16, 32 ... shows the modules are dropped that cannot be among the first any more: those that `places` others
 * surpass for sure, by Student's t on the differences of the gains, show by show. One of the first is dropped only if one
 * that is not is wrongly held to surpass it: with K modules there are places x (K - places) such pairs, and each test has
 * (1 - confidence) over their number and that of the looks (Bonferroni), so that looking early does not cheat.
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
  const gains = new Gains(study, spec, on);
  // Without the stops of a module there is no more chance in the loop than with them.
  const certain = isCertain(on, spec);
  const all = spec.modules.filter(({ stops }) => stops.length > 0).map(({ id }) => id);
  const looks = looksUntil(replications);
  const pairs = Math.max(1, places * (all.length - places));
  const each = 1 - (1 - confidence) / (looks.length * pairs);
  const dropped = new Map<string, number>();
  let left = all;
  let done = 0;
  for (const look of looks) {
    await gains.simulate(left, done, look);
    done = look;
    if (look === replications) break;
    const columns = new Map(left.map((id) => [id, gains.column(id, look)]));
    for (const id of left) if (surpassed(id, columns, each, certain) >= places) dropped.set(id, look);
    left = left.filter((id) => !dropped.has(id));
  }
  const modules = all.map((id): MendGain => {
    const builder = spec.modules.find((module) => module.id === id)?.builder;
    const column = gains.column(id, dropped.get(id) ?? replications);
    return {
      id,
      ...(builder !== undefined && { builder }),
      gain: pairedOverShows(
        column.map(() => 0),
        column,
        confidence,
        certain,
      ).difference,
      dropped_after: dropped.get(id) ?? null,
    };
  });
  return {
    on,
    now: measureEstimate(on, gains.now(replications), { show: spec.show, confidence, certain }),
    places,
    replications,
    modules: modules.toSorted(
      (a, b) =>
        Number(a.dropped_after !== null) - Number(b.dropped_after !== null) ||
        (b.gain.mean ?? 0) - (a.gain.mean ?? 0),
    ),
  };
}

/** The shows as they are, and with one module's stops off. */
class Gains {
  private readonly study: Study;
  private readonly base: System;
  private readonly index: number;
  private readonly sign: 1 | -1;
  private readonly on: string;
  private readonly places: ReadonlyMap<string, number>;
  private readonly mended: ReadonlyMap<string, System>;
  /** Stops before the measured time are not counted, so that no count tells that there were none. */
  private readonly counted: boolean;

  constructor(study: Study, spec: LoopSpec, on: string) {
    this.study = study;
    this.on = on;
    this.index = measureIndex(on);
    this.sign = MEASURES[this.index]?.better === 'more' ? 1 : -1;
    this.base = system('as it is', spec, { kind: 'stops' });
    this.counted = spec.show.warmUpSeconds === 0;
    this.places = new Map(spec.modules.map(({ id }, m) => [id, m]));
    this.mended = new Map(spec.modules.map(({ id }) => [id, withoutStops(spec, id)]));
  }

  async simulate(ids: readonly string[], from: number, to: number): Promise<void> {
    this.study.expect([this.base, ...ids.map((id) => this.mended.get(id) as System)], to - from, from);
    await this.study.simulate([this.base], to - from, from);
    const shows = Array.from({ length: to - from }, (_, i) => from + i).flatMap((replication): ShowOf[] =>
      ids
        .filter((id) => this.stopped(id, replication))
        .map((id) => ({ system: this.mended.get(id) as System, replication })),
    );
    this.study.expectShows(shows);
    await this.study.simulateShows(shows);
  }

  now(count: number): number[] {
    return this.study.column(this.base, this.on, count);
  }

  /** Gain in each show, good news counted positive; NaN where there was nothing to measure. */
  column(id: string, count: number): number[] {
    const { table } = this.study;
    return this.now(count).map((now, replication) => {
      if (!this.stopped(id, replication)) return Number.isNaN(now) ? NaN : 0;
      const [mended = NaN] = table.column((this.mended.get(id) as System).key, this.index, 1, replication);
      return this.sign * (mended - now);
    });
  }

  private stopped(id: string, replication: number): boolean {
    if (!this.counted) return true;
    const [stops = 0] = this.study.table.column(
      this.base.key,
      MEASURES.length + (this.places.get(id) ?? 0),
      1,
      replication,
    );
    return stops > 0;
  }
}

function withoutStops(spec: LoopSpec, id: string): System {
  const modules = spec.modules.map((module) => (module.id === id ? { ...module, stops: [] } : module));
  return system(`${id} never stops`, { ...spec, modules });
}

/** How many others gain more than this one for sure, each at one-sided confidence `each`. */
function surpassed(
  id: string,
  columns: ReadonlyMap<string, readonly number[]>,
  each: number,
  certain: boolean,
): number {
  const own = columns.get(id) ?? [];
  let count = 0;
  for (const [other, column] of columns) {
    if (other === id) continue;
    // A two-sided interval at 2 x each - 1 has one-sided limits at each.
    const { low } = pairedOverShows(own, column, 2 * each - 1, certain).difference;
    if (low !== null && low > 0) count++;
  }
  return count;
}

function looksUntil(replications: number): number[] {
  const looks: number[] = [];
  for (let look = FIRST_LOOK; look < replications; look *= 2) looks.push(look);
  return [...looks, replications];
}
