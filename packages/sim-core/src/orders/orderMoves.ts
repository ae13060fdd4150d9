/** Modules that are carried from one place to another in one piece. */
export interface OrderMove {
  readonly modules: readonly string[];
  /** The module that they come behind; null when they come first. */
  readonly after: string | null;
}

/** One module put right beside another, as `--move` does. */
export interface MoveStep {
  readonly module: string;
  readonly side: 'after' | 'before';
  readonly beside: string;
}

/**
 * The most modules that stand in the same order in both, so that the others are the fewest that need to be carried
 * (longest common subsequence; of two orders of the same things that is a longest rising subsequence).
 *
 * @param fixed modules that are among them in any case; they must stand in the same order in both
 * @example
 * keptModules(['a', 'b', 'c', 'd'], ['c', 'a', 'b', 'd'], []) // => ['a', 'b', 'd']
 */
export function keptModules(
  before: readonly string[],
  after: readonly string[],
  fixed: readonly string[],
): string[] {
  const was = new Map(before.map((id, place) => [id, place]));
  const is = new Map(after.map((id, place) => [id, place]));
  const at = (places: ReadonlyMap<string, number>, id: string): number => places.get(id) ?? -1;
  const line = after.filter((id) =>
    fixed.every((one) => id === one || at(was, id) < at(was, one) === at(is, id) < at(is, one)),
  );
  // length[i]: of the longest rising subsequence that ends with the i-th of the line.
  const length: number[] = [];
  const previous: number[] = [];
  for (const [i, id] of line.entries()) {
    let best = -1;
    for (let j = 0; j < i; j++) {
      const rises = at(was, line[j] ?? '') < at(was, id);
      if (rises && (best < 0 || (length[j] ?? 0) > (length[best] ?? 0))) best = j;
    }
    previous.push(best);
    length.push(1 + (length[best] ?? 0));
  }
  const kept: string[] = [];
  let i = length.indexOf(length.reduce((most, one) => Math.max(most, one), 0));
  for (; i >= 0; i = previous[i] ?? -1) kept.push(line[i] ?? '');
  return kept.toReversed();
}

/**
 * The way from one order to another in few moves: modules that stand side by side in both are carried together.
 *
 * @example
 * orderMoves(['a', 'b', 'c', 'd', 'e', 'f'], ['e', 'f', 'a', 'c', 'b', 'd'], []) // => [{ modules: ['e', 'f'], after: null }, { modules: ['b'], after: 'c' }]
 */
export function orderMoves(
  before: readonly string[],
  after: readonly string[],
  fixed: readonly string[],
): OrderMove[] {
  const kept = new Set(keptModules(before, after, fixed));
  const was = new Map(before.map((id, place) => [id, place]));
  const moves: { modules: string[]; after: string | null }[] = [];
  let open: { modules: string[] } | undefined;
  for (const [place, id] of after.entries()) {
    if (kept.has(id)) {
      open = undefined;
      continue;
    }
    const last = open?.modules.at(-1);
    if (open && last !== undefined && was.get(id) === (was.get(last) ?? NaN) + 1) {
      open.modules.push(id);
      continue;
    }
    const move = { modules: [id], after: after[place - 1] ?? null };
    moves.push(move);
    open = move;
  }
  return moves;
}

/**
 * The order in which only some of the modules have been moved, and all others stand to each other as they did.
 *
 * @param moved modules that go where they are in `after`: behind the nearest one before them there that is not moved back
 * @param kept those that stand in the same order in both, as {@link keptModules} gives them
 * @example
 * const before = ['a', 'b', 'c', 'd'];
 * onlyMoves(before, ['d', 'b', 'a', 'c'], ['d'], ['b', 'c']) // => ['d', 'a', 'b', 'c']
 */
export function onlyMoves(
  before: readonly string[],
  after: readonly string[],
  moved: readonly string[],
  kept: readonly string[],
): string[] {
  const goes = new Set(moved);
  const stands = new Set([...kept, ...moved]);
  const order = before.filter((id) => !goes.has(id));
  for (const [place, id] of after.entries()) {
    if (!goes.has(id)) continue;
    const beside = after.slice(0, place).findLast((one) => stands.has(one));
    order.splice(beside === undefined ? 0 : order.indexOf(beside) + 1, 0, id);
  }
  return order;
}

/**
 * The way from one order to another module by module, each put right behind the one that it comes behind in the end.
 *
 * @example
 * moveSteps(['a', 'b', 'c'], ['c', 'a', 'b'], []) // => [{ module: 'c', side: 'before', beside: 'a' }]
 */
export function moveSteps(
  before: readonly string[],
  after: readonly string[],
  fixed: readonly string[],
): MoveStep[] {
  const kept = new Set(keptModules(before, after, fixed));
  return after.flatMap((module, place): MoveStep[] => {
    if (kept.has(module)) return [];
    const beside = after[place - 1];
    if (beside !== undefined) return [{ module, side: 'after', beside }];
    const first = before.find((id) => id !== module);
    return first === undefined ? [] : [{ module, side: 'before', beside: first }];
  });
}
