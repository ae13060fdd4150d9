/** Two modules, the first of which the rule is about. */
export type Pair = readonly [module: string, other: string];

/** What must hold of the order of modules on the tables, by their ids. Plain data. */
export interface OrderRules {
  /** Modules that stay in their place: the so-manieth of the order. */
  readonly fixed: readonly string[];
  /** Groups that stand in one piece each, in any order within. */
  readonly together: readonly OrderGroup[];
  /** Never side by side. */
  readonly apart: readonly Pair[];
  /** The first never right after the second. */
  readonly neverRightAfter: readonly Pair[];
  /** The first never anywhere behind the second, counted from the first place of the order. */
  readonly neverBehind: readonly Pair[];
}

/** Modules that stand in one piece. */
export interface OrderGroup {
  /** In words: "the modules of Perrin". */
  readonly name: string;
  readonly modules: readonly string[];
}

/** One rule by itself. */
export type OrderRule =
  | { readonly kind: 'fixed'; readonly module: string; readonly place: number }
  | { readonly kind: 'together'; readonly group: OrderGroup }
  | { readonly kind: 'apart' | 'never right after' | 'never behind'; readonly pair: Pair };

/** No rules at all. */
export const NO_RULES: OrderRules = {
  fixed: [],
  together: [],
  apart: [],
  neverRightAfter: [],
  neverBehind: [],
};

/**
 * All rules, each by itself, with the places of today.
 *
 * @param today the order that fixed places are read off
 * @example
 * listRules({ ...NO_RULES, fixed: ['b'] }, ['a', 'b']) // => [{ kind: 'fixed', module: 'b', place: 1 }]
 */
export function listRules(rules: OrderRules, today: readonly string[]): OrderRule[] {
  const { fixed, together, apart, neverRightAfter, neverBehind } = rules;
  return [
    ...fixed.map((module): OrderRule => ({ kind: 'fixed', module, place: today.indexOf(module) })),
    ...together.map((group): OrderRule => ({ kind: 'together', group })),
    ...apart.map((pair): OrderRule => ({ kind: 'apart', pair })),
    ...neverRightAfter.map((pair): OrderRule => ({ kind: 'never right after', pair })),
    ...neverBehind.map((pair): OrderRule => ({ kind: 'never behind', pair })),
  ];
}

/**
 * Whether an order keeps a rule.
 *
 * @param closed whether the last hands its balls to the first, so that those two stand side by side
 * @example
 * const rule = { kind: 'apart', pair: ['a', 'c'] };
 * [keepsRule(rule, ['a', 'b', 'c'], false), keepsRule(rule, ['a', 'b', 'c'], true)] // => [true, false]
 */
export function keepsRule(rule: OrderRule, order: readonly string[], closed: boolean): boolean {
  switch (rule.kind) {
    case 'fixed':
      return order[rule.place] === rule.module;
    case 'together':
      return pieces(rule.group.modules, order, closed) <= 1;
    case 'apart':
      return !follows(rule.pair, order, closed) && !follows([rule.pair[1], rule.pair[0]], order, closed);
    case 'never right after':
      return !follows(rule.pair, order, closed);
    case 'never behind':
      return order.indexOf(rule.pair[0]) < order.indexOf(rule.pair[1]);
  }
}

/**
 * A rule in words.
 *
 * @example
 * ruleWords({ kind: 'never behind', pair: ['a', 'b'] }) // => 'a is never behind b'
 */
export function ruleWords(rule: OrderRule): string {
  switch (rule.kind) {
    case 'fixed':
      return `${rule.module} stays in place ${rule.place + 1}`;
    case 'together':
      return `${rule.group.name} stay together`;
    case 'apart':
      return `${rule.pair[0]} and ${rule.pair[1]} are never side by side`;
    case 'never right after':
      return `${rule.pair[0]} is never right after ${rule.pair[1]}`;
    case 'never behind':
      return `${rule.pair[0]} is never behind ${rule.pair[1]}`;
  }
}

/** Whether the first of the pair stands right after the second. */
function follows([module, other]: Pair, order: readonly string[], closed: boolean): boolean {
  const place = order.indexOf(module);
  const before = place > 0 ? order[place - 1] : closed ? order.at(-1) : undefined;
  return before === other;
}

/** In how many pieces a group stands. */
function pieces(modules: readonly string[], order: readonly string[], closed: boolean): number {
  const inside = new Set(modules);
  const isIn = order.map((id) => inside.has(id));
  if (!isIn.includes(false)) return 1;
  return isIn.filter((now, place) => now && !(place > 0 ? isIn[place - 1] : closed && isIn.at(-1))).length;
}
