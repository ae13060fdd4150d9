import type { HouseRule } from '../../experiments/index.js';
import { type Estimate, isotonicMeans, momentsOf } from '../../statistics/index.js';
import { beyond, ruleEstimate, surelyBroken, surelyKept, usedUp } from './ruleCheck.js';

/** Shows at one factor on the stops, the same replications at every factor. */
export interface CurvePoint {
  readonly factor: number;
  /** The values of each rule's measure, show by show, in the order of the rules. */
  readonly values: readonly (readonly number[])[];
  /** Of each rule, whether its measure cannot vary from show to show, by the scenario. */
  readonly certain: readonly boolean[];
}

/** Up to which factor all rules of the house are kept, as far as the points tell. */
export interface Crossing {
  /** Where the fitted curve of the first rule to break crosses its limit; null when none does up to the last point. */
  readonly mean: number | null;
  /** All rules are kept for sure up to here; 0 when that is not sure at any. */
  readonly low: number;
  /** From here on one is broken for sure; null when that is not sure at any point. */
  readonly high: number | null;
  /** Number of the rule that breaks first by the fitted curves; when none does, of the one nearest to it. */
  readonly rule: number;
  /** Whether all rules are kept for sure at the lowest point; and whether one is broken for sure there. */
  readonly lowest: 'kept' | 'broken' | 'open';
}

/** Steps between two points in which limits are looked for. */
const STEPS = 64;

/**
 * The largest factor at which a loop still keeps all rules, with an interval, from shows at a few factors.
 *
 * Figures get worse as stops get more, so there is one such factor. Between two points each show is taken to run straight
 * (the same luck at both ends), which gives a figure with its interval at every factor. `low` is found from below: up to
 * it every factor is tested as kept, one after the other, and the first that is not ends it; `high` in the same way from
 * above. Such tests in a fixed order need no correction for their number (Hsu & Berger 1999, JASA 94, 468-482, from memory): `low` is
 * too high only if the test at the true factor itself says "kept" wrongly, chance alpha / 2. "Kept" asks all rules at that
 * level (Berger 1982), "broken" any of K at alpha / (2 K) (Bonferroni), as in {@link judge}. So the interval holds the true
 * factor with chance 1 - alpha at least, if figures run straight between neighbouring points.
 *
 * The middle is where the rising curve nearest to the means (see {@link isotonicMeans}) crosses the limit.
 *
 * @param points by rising factor, at least one
 * @param hours full public hours of a show
 */
export function crossing(
  rules: readonly HouseRule[],
  points: readonly CurvePoint[],
  hours: number,
  confidence: number,
): Crossing {
  const strict = 1 - (1 - confidence) / rules.length;
  const at = (k: number, step: number): 'kept' | 'broken' | 'open' => {
    const estimate = (rule: HouseRule, r: number, level: number): Estimate =>
      ruleEstimate(
        rule,
        between(points, k, step / STEPS, r),
        hours,
        level,
        step === 0 && points[k]?.certain[r] === true,
      );
    const all = rules.every((rule, r) =>
      surelyKept(rule, estimate(rule, r, confidence), points[k]?.values[r]?.length),
    );
    if (all) return 'kept';
    const any = rules.some((rule, r) => surelyBroken(rule, estimate(rule, r, strict)));
    return any ? 'broken' : 'open';
  };
  const places = points.slice(1).flatMap((_, k) => Array.from({ length: STEPS }, (__, s) => [k, s] as const));
  const grid = [...places, [points.length - 1, 0] as const].map(([k, step]) => ({
    factor: factorAt(points, k, step / STEPS),
    state: at(k, step),
  }));
  const firstOpen = grid.findIndex(({ state }) => state !== 'kept');
  const lastOpen = grid.findLastIndex(({ state }) => state !== 'broken');
  // The limit may lie between two steps: the outer one is taken.
  const low = firstOpen < 0 ? grid.at(-1) : grid[firstOpen - 1];
  const high = grid[lastOpen + 1];
  const fitted = rules.map((rule, r) => fittedCrossing(rule, points, r));
  const mean = Math.min(...fitted);
  const last = rules.map((rule, r) => {
    const used = usedUp(rule, meanOf(points.at(-1)?.values[r] ?? []));
    return Number.isNaN(used) ? Infinity : used;
  });
  const held = Math.min(Math.max(mean, low?.factor ?? 0), high?.factor ?? Infinity);
  return {
    mean: Number.isFinite(held) && Number.isFinite(mean) ? held : null,
    low: low?.factor ?? 0,
    high: high?.factor ?? null,
    rule: Number.isFinite(mean) ? fitted.indexOf(mean) : last.indexOf(Math.max(...last)),
    lowest: grid[0]?.state ?? 'open',
  };
}

/** Values of one rule, show by show, part of the way from point k to the next. */
function between(points: readonly CurvePoint[], k: number, share: number, rule: number): readonly number[] {
  const from = points[k]?.values[rule] ?? [];
  const to = points[k + 1]?.values[rule];
  if (share === 0 || to === undefined) return from;
  return from.map((value, i) => value + share * ((to[i] ?? NaN) - value));
}

/** Mean of the shows in which there was something to measure; NaN when there was in none. */
function meanOf(values: readonly number[]): number {
  return momentsOf(values).mean;
}

function factorAt(points: readonly CurvePoint[], k: number, share: number): number {
  const from = points[k]?.factor ?? NaN;
  const to = points[k + 1]?.factor ?? from;
  return from + share * (to - from);
}

/** Where the rising curve through the means of one rule crosses its limit; Infinity when it does not. */
function fittedCrossing(rule: HouseRule, points: readonly CurvePoint[], r: number): number {
  const curve = isotonicMeans(points.map(({ values }) => beyond(rule, meanOf(values[r] ?? []))));
  // Somewhere there was nothing to measure: no curve.
  if (curve.some((value) => Number.isNaN(value))) return Infinity;
  const first = curve.findIndex((value) => value > 0);
  if (first < 0) return Infinity;
  if (first === 0) return points[0]?.factor ?? NaN;
  const [below = NaN, above = NaN] = [curve[first - 1], curve[first]];
  return factorAt(points, first - 1, -below / (above - below));
}
