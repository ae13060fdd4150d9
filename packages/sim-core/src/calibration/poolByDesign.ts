import { type CopyCount, type PooledRate, type PooledRates, pooledRates } from '../statistics/index.js';
import type { ModuleFit } from './moduleFit.js';

/** Copies of one design, each drawn to the family. */
export interface DesignPool {
  readonly design: string;
  /** In the order given. */
  readonly modules: readonly PooledModule[];
  /** By cause that all copies count alike; causes that only one copy could have are not pooled. */
  readonly causes: readonly { readonly cause: string; readonly rates: PooledRates }[];
  /** Plain sentences: how sure the family is. */
  readonly notes: readonly string[];
}

/** One copy after its family was heard. */
export interface PooledModule {
  readonly module: string;
  readonly causes: readonly PooledCause[];
}

export interface PooledCause {
  readonly cause: string;
  readonly stops: number;
  readonly over: number;
  readonly pooled: PooledRate;
  /** What the family adds to its own count, as stops over seconds, cycles or balls. */
  readonly prior: { readonly stops: number; readonly over: number };
}

/** A prior must not be nothing at all. */
const LEAST_PRIOR = 1e-3;

/**
 * Pools modules of one design: for each cause, each copy's rate of stopping is drawn to its family as far as the copies are
 * alike ({@link pooledRates}). A copy that never had a cause counts with no stop over its own running time.
 *
 * @param fits copies of one or several designs; those without a design, and designs with one copy, are left out
 * @example
 * const copy = (module, stops) => fitModule({ module, design: 'screw', where: 'bench', watched: [{ from: 0, to: 3600 }],
 *   batches: [], spills: [], stops: Array.from({ length: stops }, (_, i) => ({ cause: 'jam', from: 100 * i + 50, cleared: 100 * i + 60 })) });
 * const [pool] = poolByDesign([copy('north', 0), copy('south', 6), copy('west', 3)]);
 * pool.modules[0].causes[0].pooled.mean > 0 // => true
 */
export function poolByDesign(fits: readonly ModuleFit[], confidence = 0.95): DesignPool[] {
  const designs = new Map<string, ModuleFit[]>();
  for (const fit of fits)
    if (fit.design !== undefined) designs.set(fit.design, [...(designs.get(fit.design) ?? []), fit]);
  return [...designs]
    .filter(([, copies]) => copies.length >= 2)
    .map(([design, copies]) => poolOf(design, copies, confidence));
}

function poolOf(design: string, copies: readonly ModuleFit[], confidence: number): DesignPool {
  const names = [...new Set(copies.flatMap(({ causes }) => causes.map(({ cause }) => cause)))];
  const found = names.flatMap((cause) => {
    const counts = countsOf(cause, copies);
    return counts === null ? [] : [{ cause, counts, rates: pooledRates(counts, confidence) }];
  });
  return {
    design,
    modules: copies.map(({ module }, i) => ({
      module,
      causes: found.flatMap(({ cause, counts, rates }) => {
        const own = counts[i];
        const pooled = rates.copies[i];
        return own === undefined || pooled === undefined ? [] : [pooledCause(cause, own, pooled)];
      }),
    })),
    causes: found.map(({ cause, rates }) => ({ cause, rates })),
    notes: [
      ...(copies.length < 3
        ? [
            `${design}: two copies say little about how alike copies are; what is not known of that is averaged over.`,
          ]
        : []),
      ...found
        .filter(({ rates }) => rates.family === null)
        .map(
          ({ cause }) =>
            `${design}, ${cause}: the copies differ no more than chance makes them. That does not prove them alike; they are drawn together, but not made the same.`,
        ),
    ],
  };
}

/** Counts of one cause in all copies; null when they do not count it by the same clock. */
function countsOf(cause: string, copies: readonly ModuleFit[]): CopyCount[] | null {
  const clock = copies.flatMap(({ causes }) => causes).find((one) => one.cause === cause)?.clock;
  const counts: CopyCount[] = [];
  for (const { causes, anyStop } of copies) {
    const own = causes.find((one) => one.cause === cause);
    if (own === undefined && clock !== 'running') return null;
    if (own !== undefined && own.clock !== clock) return null;
    counts.push({ events: own?.stops ?? 0, exposure: own?.over ?? anyStop.over });
  }
  return counts;
}

/**
 * The prior that, with the copy's own count, has the mean of what is known of it, and its variance where a prior can do that:
 * no prior makes a count of none over a long time as wide as the doubt whether such a copy belongs to its family.
 */
function pooledCause(cause: string, own: CopyCount, pooled: PooledRate): PooledCause {
  let over = Math.max(0, pooled.exposure - own.exposure);
  let stops = pooled.mean * (own.exposure + over) - own.events;
  if (stops < LEAST_PRIOR) {
    stops = LEAST_PRIOR;
    over = Math.max(0, (own.events + stops) / pooled.mean - own.exposure);
  }
  return { cause, stops: own.events, over: own.exposure, pooled, prior: { stops, over } };
}
