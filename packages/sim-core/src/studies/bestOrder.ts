import { requireParameter } from '../errors/index.js';
import { isCertain, MEASURES, measureIndex } from '../experiments/index.js';
import {
  keepsRule,
  keptModules,
  type MoveStep,
  moveSteps,
  onlyMoves,
  type OrderMove,
  orderMoves,
  ruleWords,
} from '../orders/index.js';
import type { Estimate } from '../statistics/index.js';
import { measureDifference } from './compare.js';
import { fixedModules, isAllowed, type OrderProblem } from './orderSteps.js';
import { OrderSearch } from './orderSearch.js';
import { pairedOverShows } from './overShows.js';
import type { Study } from './study.js';
import { type System, system } from './system.js';

/** How a better order is to be looked for. */
export interface BestOrderOptions {
  /** Shows to spend in all, from 40. */
  readonly budget: number;
  /** The measure that decides. @default spills_per_hour */
  readonly on?: string;
  /** Modules that may be carried at most. @default all */
  readonly mostMoved?: number;
  /** @default 0.95 */
  readonly confidence?: number;
  /** An order that keeps the rules, where today's does not. @default today's */
  readonly start?: readonly string[];
}

/** Modules to be carried in one piece, and what that brings. */
export interface JudgedMove extends OrderMove {
  /** How much better the proposed order is than the same without this move, good news positive; null when not tried. */
  readonly gain: Estimate | null;
  /** Other moves that had to be undone with it for the rules to hold, by their first modules. */
  readonly undone_with: readonly string[];
}

/** A better order than today's, judged on shows that it was not chosen by. */
export interface BestOrder {
  readonly on: string;
  readonly verdict: 'better' | 'not surely better' | 'nothing found';
  readonly order_before: readonly string[];
  /** The proposed order; today's when nothing was found. */
  readonly order: readonly string[];
  /** On the fresh shows; null when nothing was found. */
  readonly before: Estimate | null;
  readonly after: Estimate | null;
  /** How much better, paired, good news positive. */
  readonly gain: Estimate | null;
  readonly moves: readonly JudgedMove[];
  /** The same one module after the other. */
  readonly steps: readonly MoveStep[];
  /** All rules in words, and those that today's order breaks. */
  readonly rules: readonly string[];
  readonly broken_today: readonly string[];
  /** Modules that may be carried at most. */
  readonly most_moved: number;
  readonly budget: number;
  /** Shows that the search took, and different orders that it simulated. */
  readonly search_shows: number;
  readonly search_orders: number;
}

/** Shares of the budget: looking, and judging the order found; the rest judges its moves. */
const SEARCH = 0.5;
const JUDGE = 0.3;
/** Where the shows begin that judge: far from those of the search. */
export const FRESH = 1_000_000;
/** Fewest shows that a move is judged by. */
const FEWEST = 3;
/** Numbers of shows that are never simulated, for the time left. */
const NEVER = 10_000_000;

/**
 * Looks for an order of the same modules that does better, and judges it on new shows.
 *
 * The search (see {@link OrderSearch}) takes half of the shows. What it finds is compared with today's order, show by show
 * with the same luck, on shows that had no part in finding it, so that luck in the search is no gain; and every move is
 * undone alone on the same fresh shows. What that says of one move holds beside all others.
 *
 * @param problem the order of today, the rules, and how to build the loop in another order
 * @throws ParameterError when an option cannot be used
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const build = (order) => ({ ...exampleLoop, modules: order.map((id) => exampleLoop.modules.find((one) => one.id === id)) });
 * const problem = { today: ['quick', 'slow'], rules: [], closed: true, build, strain: () => 0 };
 * (await bestOrder(study, problem, { budget: 40, mostMoved: 0 })).verdict // => 'nothing found'
 */
export async function bestOrder(
  study: Study,
  problem: OrderProblem,
  options: BestOrderOptions,
): Promise<BestOrder> {
  const { today, rules, closed } = problem;
  const {
    budget,
    on = 'spills_per_hour',
    mostMoved = today.length,
    confidence = 0.95,
    start = today,
  } = options;
  requireParameter(
    Number.isSafeInteger(budget) && budget >= 40,
    'bestOrder',
    'budget',
    budget,
    'a whole number from 40',
  );
  requireParameter(
    isAllowed(start, problem, mostMoved),
    'bestOrder',
    'start',
    start,
    'an order that keeps the rules and carries at most so many modules',
  );
  const sign = MEASURES[measureIndex(on)]?.better === 'more' ? 1 : -1;
  const now = built('today', today, problem);
  study.expect([now], budget, NEVER);
  const searchBudget = Math.floor(budget * SEARCH);
  const found = await new OrderSearch(study, problem, {
    on,
    sign,
    budget: searchBudget,
    mostMoved,
    start,
  }).run();
  const common = {
    on,
    order_before: [...today],
    order: [...found.order],
    rules: rules.map(ruleWords),
    broken_today: rules.filter((rule) => !keepsRule(rule, today, closed)).map(ruleWords),
    most_moved: mostMoved,
    budget,
    search_shows: found.spent,
    search_orders: found.orders,
  };
  const proposed = built('proposed', found.order, problem);
  if (proposed.key === now.key || found.order.every((id, place) => today[place] === id))
    return {
      ...common,
      verdict: 'nothing found',
      before: null,
      after: null,
      gain: null,
      moves: [],
      steps: [],
    };

  const shows = Math.floor((budget * JUDGE) / 2);
  study.expect([now], budget - found.spent, NEVER);
  await study.simulate([now, proposed], shows, FRESH);
  const columnOf = (one: System, count: number): number[] => study.column(one, on, count, FRESH);
  const difference = measureDifference(
    on,
    columnOf(now, shows),
    columnOf(proposed, shows),
    confidence,
    isCertain(on, now.spec),
  );
  const gain = turned(difference.difference, sign);
  const moves = await judgeMoves(study, problem, found.order, {
    on,
    sign,
    confidence,
    mostMoved,
    proposed,
    shows,
    budget: budget - found.spent - 2 * shows,
  });
  return {
    ...common,
    verdict: gain.low !== null && gain.low > 0 ? 'better' : 'not surely better',
    before: difference.before,
    after: difference.after,
    gain,
    moves,
    steps: moveSteps(today, found.order, fixedModules(rules)),
  };
}

interface Judging {
  readonly on: string;
  readonly sign: 1 | -1;
  readonly confidence: number;
  readonly mostMoved: number;
  readonly proposed: System;
  /** Fresh shows that the proposed order is known of. */
  readonly shows: number;
  readonly budget: number;
}

/** Each move undone alone, or with the fewest others that the rules ask for, against the proposed order. */
async function judgeMoves(
  study: Study,
  problem: OrderProblem,
  order: readonly string[],
  { on, sign, confidence, mostMoved, proposed, shows: known, budget }: Judging,
): Promise<JudgedMove[]> {
  const fixed = fixedModules(problem.rules);
  const kept = keptModules(problem.today, order, fixed);
  const moves = orderMoves(problem.today, order, fixed);
  const without = (undone: readonly OrderMove[]): System | undefined => {
    const left = moves.filter((move) => !undone.includes(move)).flatMap(({ modules }) => modules);
    const other = onlyMoves(problem.today, order, left, kept);
    const spec = isAllowed(other, problem, mostMoved) ? problem.build(other) : undefined;
    return spec && system(`without the move of ${undone[0]?.modules.join(', ') ?? ''}`, spec);
  };
  const trials = moves.map((move) => {
    const alone = without([move]);
    if (alone) return { move, partners: [], one: alone };
    for (const other of moves) {
      const both = other === move ? undefined : without([move, other]);
      if (both) return { move, partners: [other.modules[0] ?? ''], one: both };
    }
    return { move, partners: [], one: undefined };
  });
  const systems = trials.flatMap(({ one }) => one ?? []);
  const different = new Set(systems.map(({ key }) => key)).size;
  const shows = Math.min(known, Math.floor(budget / Math.max(1, different)));
  if (shows >= FEWEST) await study.simulate(systems, shows, FRESH);
  return trials.map(({ move, partners, one }): JudgedMove => {
    const gain =
      one === undefined || shows < FEWEST
        ? null
        : turned(
            pairedOverShows(
              study.column(one, on, shows, FRESH),
              study.column(proposed, on, shows, FRESH),
              confidence,
              isCertain(on, proposed.spec),
            ).difference,
            sign,
          );
    return { ...move, gain, undone_with: partners };
  });
}

function built(label: string, order: readonly string[], problem: OrderProblem): System {
  const spec = problem.build(order);
  requireParameter(spec !== undefined, 'bestOrder', label, order, 'an order that the scenario allows');
  return system(label, spec);
}

/** A difference with good news positive. */
function turned(difference: Estimate, sign: 1 | -1): Estimate {
  if (sign === 1) return difference;
  const { mean, low, high } = difference;
  const minus = (value: number | null): number | null => (value === null ? null : 0 - value);
  return { ...difference, mean: minus(mean), low: minus(high), high: minus(low) };
}
