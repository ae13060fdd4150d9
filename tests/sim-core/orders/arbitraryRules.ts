import fc from 'fast-check';
import type { OrderRules, Pair } from '../../../packages/sim-core/src/index.js';

/** Rules for these modules, few enough that there often is an order that keeps them. */
export function arbitraryRules(ids: readonly string[]): fc.Arbitrary<OrderRules> {
  const some = (minLength: number, maxLength: number): fc.Arbitrary<string[]> =>
    fc.shuffledSubarray([...ids], { minLength, maxLength });
  const pairs = fc.array(
    some(2, 2).map(([a = '', b = '']): Pair => [a, b]),
    { maxLength: 2 },
  );
  return fc.record({
    fixed: some(0, 2),
    together: fc.array(
      some(2, 3).map((modules) => ({ name: modules.join(', '), modules })),
      { maxLength: 2 },
    ),
    apart: pairs,
    neverRightAfter: pairs,
    neverBehind: pairs,
  });
}

/** All orders of a few things. */
export function permutations(ids: readonly string[]): string[][] {
  if (ids.length < 2) return [[...ids]];
  return ids.flatMap((first) =>
    permutations(ids.filter((id) => id !== first)).map((rest) => [first, ...rest]),
  );
}
