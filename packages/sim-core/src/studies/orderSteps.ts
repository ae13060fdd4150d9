import { keepsRule, keptModules, type OrderRule } from '../orders/index.js';
import type { LoopSpec } from '../model/spec/index.js';

/** Orders of the same modules, and what may be done to them. */
export interface OrderProblem {
  /** The ids in the order in which they stand now. */
  readonly today: readonly string[];
  readonly rules: readonly OrderRule[];
  /** Whether the last module hands its balls to the first. */
  readonly closed: boolean;
  /** The loop with its modules in this order; undefined where the scenario does not allow it. */
  readonly build: (order: readonly string[]) => LoopSpec | undefined;
  /** A rough figure that orders can be told apart by before they are simulated: less is better. */
  readonly strain: (order: readonly string[]) => number;
}

/** One change to an order: modules that stand side by side put elsewhere, or changing places with others. */
export type OrderStep =
  | { readonly kind: 'put'; readonly modules: readonly string[]; readonly after: string | null }
  | { readonly kind: 'swap'; readonly modules: readonly string[]; readonly others: readonly string[] };

/** The modules that stay in their place. */
export function fixedModules(rules: readonly OrderRule[]): string[] {
  return rules.flatMap((rule) => (rule.kind === 'fixed' ? [rule.module] : []));
}

/** Whether an order keeps all rules, and carries at most so many modules from where they are today. */
export function isAllowed(order: readonly string[], problem: OrderProblem, mostMoved: number): boolean {
  const { rules, closed } = problem;
  return rules.every((rule) => keepsRule(rule, order, closed)) && movedCount(order, problem) <= mostMoved;
}

/** How many modules must be carried from today's order to this one. */
export function movedCount(order: readonly string[], { today, rules }: OrderProblem): number {
  return order.length - keptModules(today, order, fixedModules(rules)).length;
}

/**
 * An order after a step. Modules that stay in their place do so: the others move past them.
 *
 * @example
 * applyStep({ kind: 'put', modules: ['d'], after: null }, ['a', 'b', 'c', 'd'], ['b']) // => ['d', 'b', 'a', 'c']
 */
export function applyStep(step: OrderStep, order: readonly string[], fixed: readonly string[]): string[] {
  const held = new Set(fixed);
  const free = order.filter((id) => !held.has(id));
  const moved = stepped(step, free);
  let next = 0;
  return order.map((id) => (held.has(id) ? id : (moved[next++] ?? id)));
}

function stepped(step: OrderStep, free: readonly string[]): readonly string[] {
  const { modules } = step;
  const going = new Set(modules);
  if (step.kind === 'put') {
    const rest = free.filter((id) => !going.has(id));
    const { after } = step;
    const place = after === null ? 0 : rest.indexOf(after) + 1;
    return after !== null && place === 0 ? free : rest.toSpliced(place, 0, ...modules);
  }
  const { others } = step;
  const coming = new Set(others);
  return free.flatMap((id) => {
    if (id === modules[0]) return others;
    if (id === others[0]) return modules;
    return going.has(id) || coming.has(id) ? [] : [id];
  });
}

/** All steps from an order: of single modules, and of groups that stay together; one at a time, for there may be very many. */
export function* stepsFrom(order: readonly string[], problem: OrderProblem): Generator<OrderStep> {
  const { free, blocks } = movable(order, problem);
  for (const [i, modules] of blocks.entries()) {
    const going = new Set(modules);
    const before = free[free.indexOf(modules[0] ?? '') - 1] ?? null;
    for (const after of [null, ...free])
      if (after !== before && (after === null || !going.has(after))) yield { kind: 'put', modules, after };
    for (const others of blocks.slice(i + 1))
      if (!others.some((id) => going.has(id))) yield { kind: 'swap', modules, others };
  }
}

/** About how many steps there are from an order. */
export function stepCount(order: readonly string[], problem: OrderProblem): number {
  const { free, blocks } = movable(order, problem);
  return blocks.length * free.length + (blocks.length * (blocks.length - 1)) / 2;
}

/** One step from an order at random; it may be one that changes nothing. */
export function randomStep(
  order: readonly string[],
  problem: OrderProblem,
  uniform: () => number,
): OrderStep | undefined {
  const { free, blocks } = movable(order, problem);
  const drawn = <T>(list: readonly T[]): T | undefined => list[Math.floor(uniform() * list.length)];
  const modules = drawn(blocks);
  if (modules === undefined) return undefined;
  // There are about twice as many places to be put to as partners to change places with.
  if (uniform() < 2 / 3) {
    const after = drawn([null, ...free]) ?? null;
    return after !== null && modules.includes(after) ? undefined : { kind: 'put', modules, after };
  }
  const others = drawn(blocks);
  return others === undefined || others.some((id) => modules.includes(id))
    ? undefined
    : { kind: 'swap', modules, others };
}

/** The modules that may move, and what may be moved in one piece: each of them, and groups. */
function movable(
  order: readonly string[],
  { rules }: OrderProblem,
): { readonly free: readonly string[]; readonly blocks: readonly (readonly string[])[] } {
  const held = new Set(fixedModules(rules));
  const free = order.filter((id) => !held.has(id));
  return { free, blocks: [...free.map((id) => [id]), ...blocksOf(free, rules)] };
}

/** Groups that stay together, each as it stands now, where all of it may move and stands in one piece. */
function blocksOf(free: readonly string[], rules: readonly OrderRule[]): string[][] {
  return rules.flatMap((rule) => {
    if (rule.kind !== 'together') return [];
    const inside = new Set(rule.group.modules);
    const block = free.filter((id) => inside.has(id));
    const first = free.indexOf(block[0] ?? '');
    const inOnePiece = block.every((id, i) => free[first + i] === id);
    return block.length === inside.size && block.length > 1 && inOnePiece ? [block] : [];
  });
}
