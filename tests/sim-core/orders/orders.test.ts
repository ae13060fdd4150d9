import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  allowedOrder,
  contradiction,
  keepsRule,
  keptModules,
  listRules,
  moveSteps,
  NO_RULES,
  onlyMoves,
  orderMoves,
  type OrderRule,
  type OrderRules,
  ruleWords,
} from '../../../packages/sim-core/src/index.js';
import { arbitraryRules, permutations } from './arbitraryRules.js';

const TODAY = ['a', 'b', 'c', 'd', 'e', 'f'];
const rulesOf = (rules: Partial<OrderRules>): OrderRule[] => listRules({ ...NO_RULES, ...rules }, TODAY);
const keeps = (rules: readonly OrderRule[], order: readonly string[], closed: boolean): boolean =>
  rules.every((rule) => keepsRule(rule, order, closed));

describe('rules for an order', () => {
  it.each<[string, Partial<OrderRules>, string, boolean, boolean]>([
    // The order, then whether it keeps the rule in a loop and in a chain.
    ['a fixed place', { fixed: ['c'] }, 'bacdef', true, true],
    ['a fixed place left', { fixed: ['c'] }, 'abdcef', false, false],
    ['a group in one piece', { together: [{ name: 'g', modules: ['a', 'c', 'e'] }] }, 'bcaedf', true, true],
    ['a group round the end', { together: [{ name: 'g', modules: ['a', 'c', 'e'] }] }, 'cbdfea', true, false],
    ['a group in two', { together: [{ name: 'g', modules: ['a', 'c', 'e'] }] }, 'abcedf', false, false],
    ['two apart', { apart: [['a', 'c']] }, 'abcdef', true, true],
    ['two side by side', { apart: [['a', 'c']] }, 'bcadef', false, false],
    ['two side by side over the end', { apart: [['a', 'c']] }, 'abdefc', false, true],
    ['one right after another', { neverRightAfter: [['b', 'a']] }, 'cabdef', false, false],
    ['one right before another', { neverRightAfter: [['b', 'a']] }, 'cbadef', true, true],
    ['one right after another over the end', { neverRightAfter: [['b', 'a']] }, 'bcdefa', false, true],
    ['one far behind another', { neverBehind: [['e', 'b']] }, 'abcdef', false, false],
    ['one before another', { neverBehind: [['b', 'e']] }, 'abcdef', true, true],
  ])('%s', (_, rules, order, loop, chain) => {
    expect(keeps(rulesOf(rules), [...order], true)).toBe(loop);
    expect(keeps(rulesOf(rules), [...order], false)).toBe(chain);
  });

  it('finds an order that keeps them where there is one, and none where there is none', () => {
    fc.assert(
      fc.property(arbitraryRules(TODAY), fc.boolean(), (typed, closed) => {
        const rules = listRules(typed, TODAY);
        const all = permutations(TODAY).filter((order) => keeps(rules, order, closed));
        const found = allowedOrder(rules, TODAY, closed);
        if (all.length === 0) expect(found).toBeUndefined();
        else expect(found !== undefined && keeps(rules, found, closed)).toBe(true);
        if (keeps(rules, TODAY, closed)) expect(found).toEqual(TODAY);
      }),
      { numRuns: 300, seed: 5 },
    );
  });

  it('names the fewest that contradict each other', () => {
    const rules = rulesOf({
      fixed: ['a', 'b', 'f'],
      together: [{ name: 'b, f and c', modules: ['b', 'f', 'c'] }],
      apart: [['d', 'e']],
    });
    expect(contradiction(rules, TODAY, false).map(ruleWords)).toEqual([
      'b stays in place 2',
      'f stays in place 6',
      'b, f and c stay together',
    ]);
    expect(contradiction(rulesOf({ neverBehind: [['b', 'a']] }), TODAY, true)).toEqual([]);
  });
});

describe('the way from one order to another', () => {
  const shuffled = fc.shuffledSubarray(TODAY, { minLength: TODAY.length });

  it('keeps the most modules that stand to each other as before', () => {
    // Independent: the longest subsequence that both orders have, among all 64 sets.
    fc.assert(
      fc.property(shuffled, (after) => {
        const longest = Array.from({ length: 64 }, (_, set) => {
          const some = TODAY.filter((__, i) => (set >> i) % 2 === 1);
          return after.filter((id) => some.includes(id)).join('') === some.join('') ? some.length : 0;
        });
        expect(keptModules(TODAY, after, [])).toHaveLength(Math.max(...longest));
        const kept = keptModules(TODAY, after, []);
        expect(after.filter((id) => kept.includes(id))).toEqual(kept);
        expect(TODAY.filter((id) => kept.includes(id))).toEqual(kept);
      }),
      { numRuns: 300, seed: 5 },
    );
  });

  it('is made of its moves, and of nothing without them', () => {
    fc.assert(
      fc.property(shuffled, (after) => {
        const kept = keptModules(TODAY, after, []);
        const moved = orderMoves(TODAY, after, []).flatMap(({ modules }) => modules);
        expect([...moved, ...kept].toSorted()).toEqual(TODAY);
        expect(onlyMoves(TODAY, after, moved, kept)).toEqual(after);
        expect(onlyMoves(TODAY, after, [], kept)).toEqual(TODAY);
        for (const one of moved)
          expect(onlyMoves(TODAY, after, [one], kept).filter((id) => id !== one)).toEqual(
            TODAY.filter((id) => id !== one),
          );
      }),
      { numRuns: 300, seed: 5 },
    );
  });

  it('is made by steps of one module, each right beside another', () => {
    fc.assert(
      fc.property(shuffled, (after) => {
        let order = TODAY;
        for (const { module, side, beside } of moveSteps(TODAY, after, [])) {
          const rest = order.filter((id) => id !== module);
          order = rest.toSpliced(rest.indexOf(beside) + (side === 'after' ? 1 : 0), 0, module);
        }
        expect(order).toEqual(after);
      }),
      { numRuns: 300, seed: 5 },
    );
  });

  it('carries modules that stay side by side in one piece, and never a fixed one', () => {
    expect(orderMoves(TODAY, [...'aefbcd'], [])).toEqual([{ modules: ['e', 'f'], after: 'a' }]);
    // c stays in the third place; the fewest to be carried past it would else be c and one more.
    expect(keptModules(TODAY, [...'dacbef'], ['c'])).toContain('c');
    expect(orderMoves(TODAY, [...'dacbef'], ['c'])).toEqual([
      { modules: ['d'], after: null },
      { modules: ['b'], after: 'c' },
    ]);
  });
});
