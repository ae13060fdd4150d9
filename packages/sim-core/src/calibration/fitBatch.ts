import type { ModuleRecord } from '../logs/index.js';
import { clopperPearson, jeffreysProportion } from '../statistics/index.js';
import type { CycleGaps } from './cycleGaps.js';
import type { Figure } from './figure.js';

/** How many balls a cycle lifts. */
export interface BatchFit {
  /** Most balls lifted in one cycle: as given, or the most seen. */
  readonly batch: number;
  readonly given: boolean;
  /** Batches that were counted. */
  readonly batches: number;
  readonly balls: number;
  /** In how many batches the most came out. */
  readonly full: number;
  /** Chance that a ball it reaches for is caught, with exact limits; null in a show, where the basket may have held fewer. */
  readonly catch: CatchFit | null;
}

export interface CatchFit {
  /** With Jeffreys' limits. */
  readonly chance: Figure;
  /** Exact limits (Clopper-Pearson), on the safe side. */
  readonly exact: { readonly low: number; readonly high: number };
  /** Balls it reached for and caught, in cycles without a batch too. */
  readonly of: number;
  readonly balls: number;
}

/**
 * The batch, and the chance of a catch. On a bench balls always wait, so each cycle reaches for a whole batch, and one that
 * brings nothing has missed them all; in a show it may have found fewer balls, and the chance cannot be told from that.
 *
 * @returns null when no batch was counted
 */
export function fitBatch(
  records: readonly ModuleRecord[],
  benchGaps: CycleGaps,
  options: { readonly confidence: number; readonly batch?: number },
): BatchFit | null {
  const counts = records.flatMap(({ batches }) => batches.map(({ balls }) => balls));
  if (counts.length === 0) return null;
  const most = counts.reduce((largest, balls) => Math.max(largest, balls), 1);
  const batch = options.batch ?? most;
  // A batch that ends no time counts only because it brought something, so it says nothing of misses.
  const of = benchGaps.cycles * batch;
  const balls = benchGaps.balls.reduce((sum, count) => sum + Math.min(batch, count), 0);
  const { confidence } = options;
  return {
    batch,
    given: options.batch !== undefined,
    batches: counts.length,
    balls: counts.reduce((sum, count) => sum + count, 0),
    full: counts.filter((count) => count >= batch).length,
    catch:
      of === 0
        ? null
        : {
            chance: { value: balls / of, ...jeffreysProportion(balls, of, confidence), confidence, n: of },
            exact: clopperPearson(balls, of, confidence),
            of,
            balls,
          },
  };
}
