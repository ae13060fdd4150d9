import { keepsRule, type OrderRule } from './orderRules.js';

/** Places tried before the search for an allowed order is given up. */
const MOST_STEPS = 20_000;

/**
 * An order that keeps all rules, near today's: place by place the module that comes next today, unless a rule forbids it.
 *
 * @param today the modules in the order that they stand in
 * @param closed whether the last hands its balls to the first
 * @returns undefined when there is none, or none was found in 20,000 steps
 * @example
 * allowedOrder([{ kind: 'never behind', pair: ['c', 'a'] }], ['a', 'b', 'c'], true) // => ['b', 'c', 'a']
 */
export function allowedOrder(
  rules: readonly OrderRule[],
  today: readonly string[],
  closed: boolean,
): string[] | undefined {
  const keeps = (order: readonly string[]): boolean => rules.every((rule) => keepsRule(rule, order, closed));
  if (keeps(today)) return [...today];
  const fixedAt = new Map(
    rules.flatMap((rule) => (rule.kind === 'fixed' ? [[rule.place, rule.module]] : [])),
  );
  const fixed = new Set(fixedAt.values());
  if (fixedAt.size < rules.filter(({ kind }) => kind === 'fixed').length) return undefined;
  const order: string[] = [];
  const used = new Set<string>();
  let steps = 0;
  const place = (): boolean => {
    if (order.length === today.length) return keeps(order);
    const must = fixedAt.get(order.length);
    // What comes next today goes on; what has been passed over comes first.
    const candidates = must === undefined ? today.filter((id) => !fixed.has(id)) : [must];
    for (const id of candidates) {
      if (used.has(id)) continue;
      if (steps++ > MOST_STEPS) return false;
      order.push(id);
      used.add(id);
      if (rules.every((rule) => canStill(rule, order, used, closed)) && place()) return true;
      order.pop();
      used.delete(id);
    }
    return false;
  };
  return place() ? order : undefined;
}

/** Whether an order that begins like this may still keep a rule; only what the last one placed can have spoilt. */
function canStill(
  rule: OrderRule,
  order: readonly string[],
  used: ReadonlySet<string>,
  closed: boolean,
): boolean {
  const last = order.at(-1) ?? '';
  const before = order.at(-2);
  switch (rule.kind) {
    case 'fixed':
      return true;
    case 'apart':
      return !rule.pair.includes(last) || before === undefined || !rule.pair.includes(before);
    case 'never right after':
      return last !== rule.pair[0] || before !== rule.pair[1];
    case 'never behind':
      return last !== rule.pair[1] || used.has(rule.pair[0]);
    case 'together': {
      const { modules } = rule.group;
      if (before === undefined || modules.includes(last) === modules.includes(before)) return true;
      const first = order[0] ?? '';
      // A group that begins the order may end it too where the last hands its balls to the first.
      const open = closed && modules.includes(first);
      if (modules.includes(last)) {
        const begun = order.slice(0, -1).some((id) => modules.includes(id));
        return !begun || open;
      }
      const gone = modules.every((id) => used.has(id));
      return gone || (open && order.slice(0, -1).every((id) => modules.includes(id)));
    }
  }
}

/**
 * The fewest of these rules that cannot all be kept, as far as leaving out one after the other shows.
 *
 * @returns none when all can be kept
 * @example
 * const rules = [{ kind: 'never behind', pair: ['a', 'b'] }, { kind: 'apart', pair: ['a', 'c'] }, { kind: 'never behind', pair: ['b', 'a'] }];
 * contradiction(rules, ['a', 'b', 'c', 'd'], false).length // => 2
 */
export function contradiction(
  rules: readonly OrderRule[],
  today: readonly string[],
  closed: boolean,
): OrderRule[] {
  if (allowedOrder(rules, today, closed)) return [];
  let left = [...rules];
  for (const rule of rules) {
    const without = left.filter((one) => one !== rule);
    if (!allowedOrder(without, today, closed)) left = without;
  }
  return left;
}
