import { describe, expect, it } from 'vitest';
import { reorder } from '../../../packages/sim-core/src/changes/index.js';
import { orderStrain } from '../../../packages/sim-core/src/estimates/index.js';
import { measureIndex, showsHere } from '../../../packages/sim-core/src/experiments/index.js';
import type { LoopSpec } from '../../../packages/sim-core/src/index.js';
import { listRules, NO_RULES } from '../../../packages/sim-core/src/orders/index.js';
import { parseScenario } from '../../../packages/sim-core/src/scenario/index.js';
import { bestOrder, Study } from '../../../packages/sim-core/src/studies/index.js';
import { permutations } from '../orders/arbitraryRules.js';

/**
 * Eight modules in which nothing is left to chance: all wait for balls, so that none begins somewhere in a cycle, cycles are
 * constant, and they stop by the clock. What spills is decided by the order alone, and one show of an order says it exactly.
 */
const TEXT = `
name: Eight that stop by the clock
show: { lasts: 8 min }
charge: { baskets: { gate: 60 } }
crew: { minders: 1, notice: 0 s, walk: 0 s, sweep: { every: 3 min, takes: 0 s, into: gate } }
templates:
  lift: { drive: demand, start_at: 1, basket: 60, cycle: 0.8 s, travel: 2 s }
modules:
  gate: { like: lift, basket: 80 }
  tipper: { like: lift, start_at: 10, batch: 10, cycle: 7 s, basket: 40 }
  cup: { like: lift, basket: 8 }
  stair: { like: lift, cycle: 0.9 s, basket: 14, stops: { rest: { at: [2 min, 5 min], itself: 25 s } } }
  wheel: { like: lift, cycle: 2.4 s, batch: 3, start_at: 3, basket: 10 }
  screw: { like: lift, cycle: 0.85 s, basket: 12, stops: { rest: { at: [4 min], itself: 40 s } } }
  train: { like: lift, cycle: 12 s, batch: 16, start_at: 8, basket: 30 }
  slide: { like: lift, basket: 9, travel: 9 s, cycle: 0.7 s }
`;

const { spec } = parseScenario(TEXT);
const today = spec.modules.map(({ id }) => id);
const SPILLS = measureIndex('spills_per_hour');
const keyOf = (order: readonly string[]): string => order.join(' ');

/** The loop in another order; all balls begin in the first basket, which stays where it is. */
function build(order: readonly string[]): LoopSpec {
  return { ...spec, modules: order.flatMap((id) => spec.modules.find((module) => module.id === id) ?? []) };
}

describe('the best order of eight modules, one of them in its place, where all 5,040 orders were simulated', () => {
  it('is found by looking at less than a tenth of them, whatever the seed', async () => {
    const here = showsHere();
    const rows = new Map<string, readonly number[]>();
    for (const rest of permutations(today.slice(1))) {
      const order = [today[0] ?? '', ...rest];
      rows.set(keyOf(order), await here.run({ spec: build(order), seed: 1, replication: 0 }));
    }
    expect(rows.size).toBe(5040);
    const spills = (order: readonly string[]): number => rows.get(keyOf(order))?.[SPILLS] ?? NaN;
    const all = [...rows.values()].map((row) => row[SPILLS] ?? NaN);
    const least = Math.min(...all);
    // The order matters, and hardly any is the best.
    expect(Math.max(...all)).toBeGreaterThan(4 * least);
    expect(all.filter((one) => one === least).length).toBeLessThan(6);

    // Nothing is left to chance, and the orders are those that a scenario file would give.
    const read = reorder({ text: TEXT });
    for (const [i, key] of [...rows.keys()].entries()) {
      if (i % 500 !== 0) continue;
      const order = key.split(' ');
      expect(read(order)).toEqual(build(order));
      expect(await here.run({ spec: build(order), seed: 7 + i, replication: i })).toEqual(rows.get(key));
    }

    const strain = orderStrain(spec);
    for (const seed of [1, 2, 3]) {
      const source = {
        size: 1,
        run: (task: { readonly spec: LoopSpec }): Promise<readonly number[]> =>
          Promise.resolve(rows.get(keyOf(task.spec.modules.map(({ id }) => id))) ?? []),
        close: () => Promise.resolve(),
      };
      const problem = {
        today,
        rules: listRules({ ...NO_RULES, fixed: ['gate'] }, today),
        closed: true,
        build,
        strain: (order: readonly string[]) => strain(order.map((id) => today.indexOf(id))),
      };
      const found = await bestOrder(new Study({ seed, source }), problem, { budget: 2000 });
      expect(spills(found.order)).toBe(least);
      expect(found.gain?.mean).toBeCloseTo(spills(today) - least, 9);
      expect(found.search_orders).toBeLessThan(504);
    }
  });
});
