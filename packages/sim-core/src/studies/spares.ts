import { requireParameter } from '../errors/index.js';
import { MEASURES, measureIndex } from '../experiments/index.js';
import type { LoopSpec, ModuleSpec } from '../model/spec/index.js';
import type { Estimate } from '../statistics/index.js';
import type { Study } from './study.js';
import { defaultMargin, firstLook } from './sweep.js';
import { type Criterion, enough, gainOf } from './sweep/enough.js';
import { Looked } from './sweep/looked.js';
import type { MeasureEstimate } from './sweep/sweepResult.js';

/** A spare or two, or none, brought along. */
export interface SpareSet {
  /** Ids; none, one or two. */
  readonly spares: readonly string[];
  /** The measure that decides with these, and no other spare, at hand. */
  readonly estimate: Estimate;
  readonly measures: readonly MeasureEstimate[];
  /** Gain on the measure over no spare at all, good news counted positive, show by show; of no spare itself 0. */
  readonly gain: Estimate;
  /** The same on the other measures by which a choice must be enough. */
  readonly gains: readonly { readonly measure: string; readonly gain: Estimate }[];
  /** Judged with fresh shows; else only a first look was had. */
  readonly judged: boolean;
}

/** A set, with a gain by one of the measures, good news counted positive. */
export interface SpareRival {
  readonly spares: readonly string[];
  readonly measure: string;
  readonly gain: Estimate;
}

/** Which spares to bring. */
export interface Spares {
  readonly on: string;
  readonly margin: number;
  /** Other measures by which a choice must be enough too. */
  readonly also: readonly Criterion[];
  /** Spares that a pull rule names, in the order of the file. */
  readonly named: readonly string[];
  /** Spares that no pull rule names: bringing them changes nothing. */
  readonly unnamed: readonly string[];
  /** Modules with a pull rule. */
  readonly pulled: readonly string[];
  /** By gain: those judged first. */
  readonly sets: readonly SpareSet[];
  /** The smallest set on which no other gains more than the margin, for sure; null when undecided, or nothing to bring. */
  readonly bring: readonly string[] | null;
  /** What another set gains most on that one; null when there is none. */
  readonly rival: SpareRival | null;
  /** The set that was not surely enough any more, with what its strongest rival gains on it; null when none was tried. */
  readonly failed: SpareRival | null;
  /** Shows of each set that was judged. */
  readonly replications: number;
}

export interface SparesOptions {
  readonly replications: number;
  /** @default a fifth of the replications, 8 at least */
  readonly explore?: number;
  /** @default spills_per_hour */
  readonly on?: string;
  /** Other measures by which a choice must be enough too, each with its default margin. @default none */
  readonly also?: readonly string[];
  /** @default a tenth of the value with all spares, see `sweep` */
  readonly margin?: number;
  /** @default 0.95 */
  readonly confidence?: number;
}

/** Sets up to which all are judged. */
const ALL_JUDGED = 8;

/**
 * The loop as if only these spares had been brought: pull rules keep those they name of them, and a rule that has nothing
 * left to put in, nor a plain chute, is left out.
 *
 * @param ids of spares
 * @example
 * withSpares(exampleLoop, []).modules.length // => 2
 */
export function withSpares(spec: LoopSpec, ids: readonly string[]): LoopSpec {
  const there = (index: number): boolean => ids.includes(spec.spares?.[index]?.id ?? '');
  const modules = spec.modules.map((module): ModuleSpec => {
    const { pull, ...rest } = module;
    if (pull === undefined) return module;
    const spares = pull.spares.filter(there);
    return spares.length === 0 && pull.chute === undefined ? rest : { ...rest, pull: { ...pull, spares } };
  });
  return { ...spec, modules };
}

/**
 * What the show gains by bringing each of its spares alone, and each two of them, against none; and the smallest set beyond
 * which one more brings no difference that matters, for sure (see `sweep`: the same judgement, from the best set down).
 *
 * @throws ParameterError when an option cannot be used
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * (await spares(study, exampleLoop, { replications: 10 })).sets // => []
 */
export async function spares(study: Study, spec: LoopSpec, options: SparesOptions): Promise<Spares> {
  const { replications, on = 'spills_per_hour', confidence = 0.95 } = options;
  const { explore = firstLook(replications) } = options;
  for (const [name, count] of Object.entries({ replications, explore }))
    requireParameter(
      Number.isSafeInteger(count) && count >= 2,
      'spares',
      name,
      count,
      'a whole number from 2',
    );
  const rules = spec.modules.filter(({ pull }) => pull !== undefined);
  const isNamed = (_: unknown, index: number): boolean =>
    rules.some(({ pull }) => pull?.spares.includes(index));
  const all = spec.spares ?? [];
  const named = all.filter(isNamed).map(({ id }) => id);
  const common = {
    on,
    named,
    unnamed: all.map(({ id }) => id).filter((id) => !named.includes(id)),
    pulled: rules.map(({ id }) => id),
    replications,
  };
  if (named.length === 0)
    return {
      ...common,
      margin: options.margin ?? 0,
      also: [],
      sets: [],
      bring: null,
      rival: null,
      failed: null,
    };

  const sets = setsOf(named);
  const looked = new Looked(study, (index) => withSpares(spec, sets[index] ?? []), {
    explore,
    replications,
    confidence,
    on,
  });
  const indexes = [...sets.keys()];
  await looked.explore(indexes);
  const sign = MEASURES[measureIndex(on)]?.better === 'more' ? 1 : -1;
  const good = (index: number): number => sign * (looked.estimate(index, on, false).mean ?? -sign * Infinity);
  const bestOf = (size: number): number[] =>
    indexes
      .filter((index) => sets[index]?.length === size)
      .toSorted((a, b) => good(b) - good(a))
      .slice(0, 1);
  const mostSpares = indexes.filter((index) => (sets[index]?.length ?? 0) === Math.min(2, named.length));
  const asMany = mostSpares.toSorted((a, b) => good(b) - good(a))[0] ?? 0;
  const criterion = (measure: string): Criterion => ({
    measure,
    margin: defaultMargin(measure, looked.estimate(asMany, measure, false).mean ?? 0),
  });
  const margin = options.margin ?? criterion(on).margin;
  const also = (options.also ?? []).map(criterion);
  const { steps, enough: found } = await enough(looked, {
    criteria: [{ measure: on, margin }, ...also],
    order: (bests) => {
      const size = (index: number): number => sets[index]?.length ?? 0;
      const first = bests.reduce((most, index) => (size(index) > size(most) ? index : most));
      return [first, ...[1, 0].filter((less) => less < size(first)).flatMap(bestOf)];
    },
    always: indexes.length <= ALL_JUDGED ? indexes : [0, ...bestOf(1)],
  });
  const gain = (index: number, measure = on): Estimate =>
    gainOf(looked, measure, 0, index, { judged: looked.isJudged(index), confidence });
  const step = steps.find(({ value }) => value === found);
  const last = steps.at(-1);
  return {
    ...common,
    margin,
    also,
    sets: indexes
      .map((index) => ({
        spares: sets[index] ?? [],
        estimate: looked.estimate(index),
        measures: looked.estimates(index),
        gain: gain(index),
        gains: also.map(({ measure }) => ({ measure, gain: gain(index, measure) })),
        judged: looked.isJudged(index),
      }))
      .toSorted((a, b) => Number(b.judged) - Number(a.judged) || (b.gain.mean ?? 0) - (a.gain.mean ?? 0)),
    bring: found === null ? null : (sets[found] ?? []),
    rival:
      step?.gain && step.rival !== null
        ? { spares: sets[step.rival] ?? [], measure: on, gain: step.gain }
        : null,
    failed:
      last && !last.enough && last.gain
        ? { spares: sets[last.value] ?? [], measure: last.measure, gain: last.gain }
        : null,
  };
}

/** None, each one, each two. */
function setsOf(ids: readonly string[]): string[][] {
  return [[], ...ids.map((id) => [id]), ...ids.flatMap((a, i) => ids.slice(i + 1).map((b) => [a, b]))];
}
