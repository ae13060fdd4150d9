import type { HouseRule } from '../../experiments/index.js';
import {
  type Estimate,
  momentsOf,
  replicationsToDecide,
  replicationsUntilRare,
} from '../../statistics/index.js';
import {
  beyond,
  isMissing,
  isUnlimited,
  ruleEstimate,
  type RuleVerdict,
  surelyBroken,
  surelyKept,
  usedUp,
} from './ruleCheck.js';

/** One rule of the house and what shows say of it. */
export interface RuleCheck extends HouseRule {
  readonly estimate: Estimate;
  /** The interval that must lie beyond the limit for "broken": wider when there are several rules. */
  readonly strict: Estimate;
  readonly verdict: RuleVerdict;
  /** How far the mean lies beyond the limit, in the unit of the measure; negative within it; null without a mean. */
  readonly beyond: number | null;
  /** The mean as a share of the limit, or limit over mean for "at least"; null without a mean. */
  readonly used: number | null;
  /** About how many more shows it would take to tell; 0 when told, null when no number would do. */
  readonly more_replications: number | null;
}

/** May it go inline by these rules? */
export type HouseVerdict = 'inline' | 'side table' | 'undecided';

/** The verdict of the house over all its rules. */
export interface HouseJudgement {
  readonly verdict: HouseVerdict;
  readonly rules: readonly RuleCheck[];
  /** Name of the rule that decides, or that stands in the way of a verdict. */
  readonly decides: HouseRule['name'];
  /** When undecided: about how many more shows it would take; null when decided or when no number would do. */
  readonly more_replications: number | null;
}

/**
 * Judges shows by the rules of a house: "inline" when every rule is kept for sure, "side table" when one is broken for
 * sure, else "undecided".
 *
 * With alpha = 1 - confidence, each of the two verdicts is wrong with chance alpha / 2 at most, so that together they err
 * with alpha at most whatever the truth is. "Inline" asks every rule to lie within its limit, each at level alpha / 2: as
 * one rule that is broken in truth must slip through, nothing needs to be corrected for their number (intersection-union
 * test: Berger 1982, Technometrics 24, 295-300, from memory). "Side table" may come from any of K rules, so each is tested at
 * alpha / (2 K) (Bonferroni; union-intersection). That is for intervals that cover as they say: Student's t asks for means
 * that are near enough to normal.
 *
 * @param rules at least one
 * @param column the values of a measure, one for each show
 * @param hours full public hours of a show
 * @param certain whether a measure cannot vary from show to show, by the scenario @default never
 * @example
 * const rules = [{ name: 'longest_lap', measure: 'loop_time_p95_s', side: 'at most', limit: 900 }];
 * judge(rules, () => [800, 820, 840], 6, 0.95).verdict // => 'inline'
 */
export function judge(
  rules: readonly HouseRule[],
  column: (measure: string) => readonly number[],
  hours: number,
  confidence: number,
  certain: (measure: string) => boolean = () => false,
): HouseJudgement {
  const strict = 1 - (1 - confidence) / rules.length;
  const checks = rules.map((rule): RuleCheck => {
    const values = column(rule.measure);
    const at = (level: number): Estimate => ruleEstimate(rule, values, hours, level, certain(rule.measure));
    return check(rule, values, at(confidence), at(strict));
  });
  return overall(checks);
}

/** The verdict over rules that were looked at one by one; see `judge`. */
export function overall(checks: readonly RuleCheck[]): HouseJudgement {
  const broken = checks.filter(({ verdict }) => verdict === 'broken');
  const open = checks.filter(({ verdict }) => verdict === 'open');
  const some = broken.length > 0 ? broken : open.length > 0 ? open : checks;
  const verdict = broken.length > 0 ? 'side table' : open.length > 0 ? 'undecided' : 'inline';
  return {
    verdict,
    rules: checks,
    decides: worst(some).name,
    more_replications: verdict === 'undecided' ? moreShows(open) : null,
  };
}

function check(rule: HouseRule, values: readonly number[], estimate: Estimate, wide: Estimate): RuleCheck {
  const isKept = surelyKept(rule, estimate, values.length);
  const verdict = isKept ? 'kept' : surelyBroken(rule, wide) ? 'broken' : 'open';
  const { mean } = estimate;
  const past = mean === null ? null : beyond(rule, mean);
  return {
    ...rule,
    estimate,
    strict: wide,
    verdict,
    beyond: past,
    used: mean === null ? null : usedUp(rule, mean),
    more_replications: verdict === 'open' ? moreFor(rule, values, estimate, wide) : 0,
  };
}

function moreFor(
  rule: HouseRule,
  values: readonly number[],
  estimate: Estimate,
  wide: Estimate,
): number | null {
  const { mean, low, high, confidence, replications } = estimate;
  const past = mean === null ? 0 : beyond(rule, mean);
  // What is within the limit so far may come to be kept, what is beyond it broken.
  const level = past > 0 ? wide.confidence : confidence;
  if (replications > 1 && (isUnlimited(estimate) || (low === null && high === null)))
    // All the same: known when others are rare for sure. That not one ball falls, ever, no number of shows tells.
    return isUnlimited(estimate) && rule.limit === 0 ? null : replicationsUntilRare(level) - replications;
  if (past <= 0 && isMissing(estimate, values.length)) return null;
  const more = replicationsToDecide(momentsOf(values.map((value) => beyond(rule, value))), 0, level);
  // Where Student's t would have told already, but the interval for balls that fall many at a time is wider.
  return more === 0 ? values.length : more;
}

/** The rule that uses up most of its limit; one that has nothing to measure comes first. */
function worst(checks: readonly RuleCheck[]): RuleCheck {
  return checks.reduce((most, one) => ((one.used ?? Infinity) > (most.used ?? Infinity) ? one : most));
}

/** One rule beyond its limit is enough for "side table"; for "inline" all that are open must be told. */
function moreShows(open: readonly RuleCheck[]): number | null {
  const counts = (some: readonly RuleCheck[]): number[] =>
    some.map(({ more_replications: more }) => more ?? Infinity);
  const over = open.filter(({ beyond: past }) => past !== null && past > 0);
  const needed = over.length > 0 ? Math.min(...counts(over)) : Math.max(...counts(open));
  return Number.isFinite(needed) ? needed : null;
}
