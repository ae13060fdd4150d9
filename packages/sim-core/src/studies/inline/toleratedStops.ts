import { type HouseRule, isCertain } from '../../experiments/index.js';
import { type Estimate, momentsOf } from '../../statistics/index.js';
import type { Study } from '../study.js';
import type { System } from '../system.js';
import { type Crossing, crossing, type CurvePoint } from './crossing.js';
import { beyond, ruleEstimate } from './ruleCheck.js';

/** How the most stops that the rules stand is looked for. */
export interface ToleratedStopsOptions {
  readonly rules: readonly HouseRule[];
  /** The loop with the stops of the module so many times as often; it watches that module. */
  readonly at: (factor: number) => System;
  /** Shows at each factor that the answer rests on: replications 0 and up, as those of the verdict. */
  readonly replications: number;
  /** Full public hours of a show. */
  readonly hours: number;
  readonly confidence: number;
}

/** A value with its interval; null where it is not known. */
export interface LimitValue {
  readonly mean: number | null;
  readonly low: number;
  readonly high: number | null;
}

/** What was seen at one factor on the stops. */
export interface StopsPoint {
  readonly factor: number;
  /** Its own stops per public hour in the loop. */
  readonly stops_per_hour: number;
  /** The figure of each rule, in the order of the rules. */
  readonly figures: readonly Estimate[];
}

/** The most stops of a module with which a loop still keeps the rules of the house. */
export interface ToleratedStops {
  /**
   * `limit`: there is one, as follows; `none`: rules are broken for sure even if it never stopped; `beyond`: kept for sure
   * at the most that was tried.
   */
  readonly found: 'limit' | 'none' | 'beyond';
  /** On its stop rates; 1 is as it is. */
  readonly factor: LimitValue;
  /** Its own stops per public hour in the loop, as measured at those factors. */
  readonly stops_per_hour: LimitValue;
  /** The same as it is. */
  readonly now: number;
  /** Name of the rule that breaks first. */
  readonly rule: HouseRule['name'];
  /** By rising factor. */
  readonly points: readonly StopsPoint[];
  readonly replications: number;
}

/** Replications from here on tell roughly where to look; others tell how much it is. */
const PILOT_FROM = 2_000_000;
const PILOT_SHOWS = 6;
/** Stops so many times as often are as far as anybody will ask. */
const MOST = 32;
const REFINEMENTS = 2;
/** Farther factors to look at when no rule is broken for sure at the last. */
const EXTENSIONS = 2;

/**
 * Looks for the most stops an hour with which a loop still keeps the rules: a few shows at a few factors tell roughly where
 * that is; then shows of other luck, the same ones at every factor, at factors around it, and `crossing` over them. When
 * these are all too high or too low, 0 or up to two larger ones are looked at as well; only a few shows that led far astray
 * make that happen, so that what it adds to the chance of a miss is small.
 *
 * @throws SimulationError when a show cannot be simulated
 */
export async function toleratedStops(study: Study, options: ToleratedStopsOptions): Promise<ToleratedStops> {
  const { rules, at, replications, hours, confidence } = options;
  const factors = await roughly(study, options);
  const simulated = async (wanted: readonly number[]): Promise<CurvePoint[]> => {
    const systems = wanted.map(at);
    study.expect(systems, replications);
    await study.simulate(systems, replications);
    return systems.map((system, i) => ({
      factor: wanted[i] ?? NaN,
      values: rules.map(({ measure }) => study.column(system, measure, replications)),
      certain: rules.map(({ measure }) => isCertain(measure, system.spec)),
    }));
  };
  let points = await simulated(factors);
  let found = crossing(rules, points, hours, confidence);
  if (found.lowest !== 'kept' && points[0]?.factor !== 0) {
    points = [...(await simulated([0])), ...points];
    found = crossing(rules, points, hours, confidence);
  }
  for (let more = 0; more < EXTENSIONS && found.high === null; more++) {
    const top = points.at(-1)?.factor ?? MOST;
    if (top >= MOST) break;
    points = [...points, ...(await simulated([Math.min(MOST, 2 * top)]))];
    found = crossing(rules, points, hours, confidence);
  }
  const rates = points.map(({ factor }) => rateOf(study, at(factor), replications));
  const stops = points.map(({ factor, values, certain }, i) => ({
    factor,
    stops_per_hour: rates[i] ?? NaN,
    figures: rules.map((rule, r) => ruleEstimate(rule, values[r] ?? [], hours, confidence, certain[r])),
  }));
  const known = interpolated(stops);
  const { mean, low, high } = found;
  return {
    found: kindOf(found, points),
    factor: { mean, low, high },
    stops_per_hour: {
      mean: mean === null ? null : known(mean),
      low: known(low),
      high: high === null ? null : known(high),
    },
    now: known(1),
    rule: (rules[found.rule] as HouseRule).name,
    points: stops,
    replications,
  };
}

function kindOf({ lowest, low, high }: Crossing, points: readonly CurvePoint[]): ToleratedStops['found'] {
  if (lowest === 'broken' && points[0]?.factor === 0) return 'none';
  return high === null && low === points.at(-1)?.factor && low >= MOST ? 'beyond' : 'limit';
}

/** Its own stops over its hours in the loop, all shows together. */
function rateOf(study: Study, system: System, count: number): number {
  const sum = (id: string): number =>
    study.column(system, id, count).reduce((total, value) => total + value, 0);
  return sum('watched_stops') / sum('watched_hours');
}

/** Stops per hour at any factor, straight between the points. */
function interpolated(points: readonly StopsPoint[]): (factor: number) => number {
  return (factor) => {
    const next = points.findIndex((point) => point.factor >= factor);
    const to = points[next < 0 ? points.length - 1 : next];
    const from = points[next - 1];
    if (to === undefined) return NaN;
    if (from === undefined || to.factor <= factor)
      return to.stops_per_hour * (next < 0 ? factor / to.factor : 1);
    const share = (factor - from.factor) / (to.factor - from.factor);
    return from.stops_per_hour + share * (to.stops_per_hour - from.stops_per_hour);
  };
}

/** The factors to look at closely, around where a few shows see the limit; always with 1, as it is. */
async function roughly(study: Study, options: ToleratedStopsOptions): Promise<number[]> {
  const { rules, replications } = options;
  const seen: Pilot[] = [];
  const look = async (factor: number): Promise<Pilot> => {
    const system = options.at(factor);
    study.expect([system], PILOT_SHOWS, PILOT_FROM);
    await study.simulate([system], PILOT_SHOWS, PILOT_FROM);
    const worst = rules
      .map((rule) => {
        const column = study.column(system, rule.measure, PILOT_SHOWS, PILOT_FROM);
        const { mean, variance } = momentsOf(
          column.map((value) => beyond(rule, value) / (Math.abs(rule.limit) || 1)),
        );
        return { factor, over: Number.isNaN(mean) ? Infinity : mean, sd: Math.sqrt(variance) || 0 };
      })
      .reduce((most, one) => (one.over > most.over ? one : most));
    seen.push(worst);
    return worst;
  };
  let kept = await look(0);
  let broken = await look(1);
  // Too few shows to say that it would not do even without stops: closer looks tell.
  if (kept.over > 0 && broken.over > 0) return [0, 0.25, 1];
  while (broken.over <= 0 && broken.factor < MOST) {
    kept = broken;
    broken = await look(2 * broken.factor);
  }
  if (broken.over <= 0) return [1, MOST / 2, MOST];
  for (let i = 0; i < REFINEMENTS; i++) {
    const next = await look(guess(kept, broken, 0.2));
    if (next.over > 0) broken = next;
    else kept = next;
  }
  const middle = guess(kept, broken, 0);
  // Where the figures are flat the limit is told less sharply: wide enough for both lucks.
  const slope = (broken.over - kept.over) / (broken.factor - kept.factor);
  const sd = Math.max(kept.sd, broken.sd);
  const reach = (sd / slope) * (2.5 / Math.sqrt(replications) + 1.5 / Math.sqrt(PILOT_SHOWS));
  const width = Math.min(Math.max(reach, 0.25 * middle), Math.max(0.75 * middle, 0.25));
  const around = [Math.max(0, middle - width), middle, middle + 1.3 * width].map(
    (factor) => Math.round(1000 * factor) / 1000,
  );
  // One that is as good as 1 is not needed beside it.
  return [...around.filter((factor) => Math.abs(factor - 1) > 0.05), 1].toSorted((a, b) => a - b);
}

interface Pilot {
  readonly factor: number;
  /** Mean of the worst rule beyond its limit, as a share of the limit. */
  readonly over: number;
  readonly sd: number;
}

/** Where the straight line between two factors crosses, not nearer to either than a share of the way. */
function guess(kept: Pilot, broken: Pilot, share: number): number {
  const whole = broken.factor - kept.factor;
  const part = Number.isFinite(broken.over) ? -kept.over / (broken.over - kept.over) : 0.5;
  return kept.factor + whole * Math.min(1 - share, Math.max(share, part));
}
