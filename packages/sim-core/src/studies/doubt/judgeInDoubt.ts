import type { HouseRule } from '../../experiments/index.js';
import {
  areAlike,
  clumpedRateInterval,
  clusteredProportion,
  type Estimate,
  isRare,
  momentsOf,
  plausibleInterval,
  type PlausibleMeans,
  plausibleMeans,
  shareBetween,
  shareUpTo,
  varianceComponents,
} from '../../statistics/index.js';
import { type HouseJudgement, overall, type RuleCheck } from '../inline/houseVerdict.js';
import { beyond, surelyBroken, surelyKept, usedUp } from '../inline/ruleCheck.js';

/** What counts leave open of one rule of the house. */
export interface RuleDoubt {
  readonly name: HouseRule['name'];
  /** Of the loops that the counts leave possible, the share that keep the rule on average; null when nothing was measured. */
  readonly keeps: number | null;
  /**
   * How much of the variance of a single show's figure comes from few data; the rest is luck of the day. Null when it cannot
   * be said, as nothing varies.
   */
  readonly few_data: { readonly mean: number; readonly low: number; readonly high: number } | null;
  /** Standard deviation of the figure over loops that the counts leave possible, and over days of one loop. */
  readonly sd_few_data: number | null;
  readonly sd_luck: number | null;
}

/** The judgement of the house when the parameters were drawn, and what the doubt does to each rule. */
export interface JudgedInDoubt {
  readonly judgement: HouseJudgement;
  readonly rules: readonly RuleDoubt[];
}

/**
 * Judges by the rules of the house shows whose parameters were drawn from what was counted: the intervals are for the figure
 * of the real loop, of which only the counts are known. Chances of a wrong verdict as in `judge`.
 *
 * @param column values of a measure, one for each show; `each` shows in a row have the same draw
 * @param hours full public hours of a show
 */
export function judgeInDoubt(
  rules: readonly HouseRule[],
  column: (measure: string) => readonly number[],
  each: number,
  hours: number,
  confidence: number,
): JudgedInDoubt {
  const strict = 1 - (1 - confidence) / rules.length;
  const judged = rules.map((rule) => {
    const values = column(rule.measure);
    const groups = groupsOf(values, each);
    return { rule, shows: values.length, ...looked(rule, groups, each, hours, confidence, strict) };
  });
  return {
    judgement: overall(judged.map(({ rule, shows, estimate, wide }) => checkOf(rule, shows, estimate, wide))),
    rules: judged.map(({ doubt }) => doubt),
  };
}

/** Those with a show in which there was nothing to measure are left out. */
function groupsOf(values: readonly number[], each: number): number[][] {
  return Array.from({ length: Math.floor(values.length / each) }, (_, k) =>
    values.slice(k * each, (k + 1) * each),
  ).filter((group) => group.every(Number.isFinite));
}

/** Fewer groups than this say too little of what a group may be. */
const LEAST_GROUPS = 20;

function looked(
  rule: HouseRule,
  groups: readonly (readonly number[])[],
  each: number,
  hours: number,
  confidence: number,
  strict: number,
): { readonly estimate: Estimate; readonly wide: Estimate; readonly doubt: RuleDoubt } {
  const { name, side, limit } = rule;
  const shows = groups.length * each;
  if (groups.length < LEAST_GROUPS) {
    const nothing = { mean: null, low: null, high: null, confidence, replications: shows };
    return {
      estimate: nothing,
      wide: { ...nothing, confidence: strict },
      doubt: { name, keeps: null, few_data: null, sd_few_data: null, sd_luck: null },
    };
  }
  const components = varianceComponents(groups);
  const plausible = plausibleMeans(components);
  const { within, between } = components;
  const at = (level: number): Estimate => ({
    mean: components.mean,
    ...intervalOf(rule, plausible, components.means, hours * each, level),
    confidence: level,
    replications: shows,
  });
  const upTo = shareUpTo(plausible, limit);
  const below = plausible.values.filter((value) => value < limit).length / plausible.values.length;
  return {
    estimate: at(confidence),
    wide: at(strict),
    doubt: {
      name,
      keeps: side === 'at most' ? upTo : 1 - below,
      few_data: within + between > 0 ? shareBetween(components, confidence) : null,
      sd_few_data: Math.sqrt(between),
      sd_luck: Math.sqrt(within),
    },
  };
}

/**
 * The interval for the figure of the real loop. Balls that fall many at a time, and hours with a spill, may be too rare for
 * the means of the draws to show what they can be: then it is as wide as the one for such figures, too (see `ruleEstimate`).
 * Where all draws came out alike there is an interval, without width, only when others are rare for sure: it is draws that
 * count, as all shows of one have its parameters.
 */
function intervalOf(
  { measure }: HouseRule,
  plausible: PlausibleMeans,
  means: readonly number[],
  hoursOfDraw: number,
  confidence: number,
): { readonly low: number | null; readonly high: number | null } {
  const share = measure === 'spill_hour_share';
  const { mean, variance } = momentsOf(means);
  const alike = plausible.error === 0 && areAlike(variance, Math.abs(mean));
  if (alike && !share && (mean > 0 || measure !== 'spills_per_hour') && !isRare(means.length, confidence))
    return { low: null, high: null };
  const own = plausibleInterval(plausible, confidence, share ? { min: 0, max: 1 } : { min: 0 });
  const rare = share
    ? clusteredProportion(momentsOf(means), Math.max(1, hoursOfDraw), confidence)
    : measure === 'spills_per_hour'
      ? clumpedRateInterval(momentsOf(means), means.filter((mean) => mean > 0).length, confidence)
      : undefined;
  if (rare === undefined || rare.low === null) return own;
  return {
    low: Math.min(own.low, rare.low),
    high: rare.high === null ? null : Math.max(own.high, rare.high),
  };
}

/** As `judge` puts it, but no number of shows is named: it may be counts that are missing. */
function checkOf(rule: HouseRule, shows: number, estimate: Estimate, strict: Estimate): RuleCheck {
  const verdict = surelyKept(rule, estimate, shows) ? 'kept' : surelyBroken(rule, strict) ? 'broken' : 'open';
  const { mean } = estimate;
  return {
    ...rule,
    estimate,
    strict,
    verdict,
    beyond: mean === null ? null : beyond(rule, mean),
    used: mean === null ? null : usedUp(rule, mean),
    more_replications: verdict === 'open' ? null : 0,
  };
}
