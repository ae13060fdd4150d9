import { type HouseRule, isCertain } from '../../experiments/index.js';
import type { Estimate } from '../../statistics/index.js';
import { surelyBroken } from '../inline/ruleCheck.js';
import { pairedOverShows } from '../overShows.js';
import type { Criterion } from './enough.js';
import type { Looked } from './looked.js';

/** What a value must keep besides the limit that is asked about. */
export interface Standards {
  /** A value that surely breaks one of these is not recommended. */
  readonly rules: readonly HouseRule[];
  /** Of these rules a value must surely keep the one with this measure; null when none. */
  readonly surely: string | null;
  /** Not worse than now by more than a margin, for sure; null when not asked for. */
  readonly asNow: Criterion | null;
}

/** Whether a value keeps what it must besides the limit. */
export interface Kept {
  readonly verdict: 'kept' | 'broken' | 'open';
  /** Judged by the means alone. */
  readonly likely: boolean;
  /** The measure by which it is not kept for sure; null when it is. */
  readonly measure: string | null;
}

const KEPT: Kept = { verdict: 'kept', likely: true, measure: null };

/**
 * Whether a value keeps what it must besides the limit: rules of the house, and what there is now. Of each value alone, and
 * against now show by show with the same luck.
 *
 * @param now the loop as it is, with as many shows as the value
 */
export function keptStandards(
  standards: Standards,
  looked: Looked,
  now: Looked,
  value: number,
  judged: boolean,
): Kept {
  const { rules, surely, asNow } = standards;
  const all = [
    ...rules.map((rule) => byRule(rule, looked.estimate(value, rule.measure, judged), surely)),
    ...(asNow === null ? [] : [byNow(asNow, looked, now, value, judged)]),
  ];
  return (
    all.find(({ verdict }) => verdict === 'broken') ??
    all.find(({ verdict }) => verdict === 'open') ??
    (all.every(({ likely }) => likely) ? KEPT : { ...KEPT, likely: false })
  );
}

function byRule(rule: HouseRule, estimate: Estimate, surely: string | null): Kept {
  const { measure, side, limit } = rule;
  const { mean, low, high } = estimate;
  if (mean === null) return measure === surely ? { verdict: 'open', likely: false, measure } : KEPT;
  const atMost = side === 'at most';
  const likely = atMost ? mean <= limit : mean >= limit;
  if (surelyBroken(rule, estimate)) return { verdict: 'broken', likely: false, measure };
  const isKept = atMost ? high !== null && high <= limit : low !== null && low >= limit;
  return isKept || measure !== surely ? { ...KEPT, likely } : { verdict: 'open', likely, measure };
}

function byNow(
  { measure, margin }: Criterion,
  looked: Looked,
  now: Looked,
  value: number,
  judged: boolean,
): Kept {
  const { confidence } = looked.options;
  const pair = [now.systemAt(0), looked.systemAt(value)];
  const { difference } = pairedOverShows(
    now.column(0, measure, judged),
    looked.column(value, measure, judged),
    confidence,
    pair[0]?.key === pair[1]?.key || pair.every(({ spec }) => isCertain(measure, spec)),
  );
  const { mean, low, high } = difference;
  const likely = mean !== null && mean >= -margin;
  if (high !== null && high < -margin) return { verdict: 'broken', likely: false, measure };
  return low !== null && low >= -margin ? KEPT : { verdict: 'open', likely, measure };
}
