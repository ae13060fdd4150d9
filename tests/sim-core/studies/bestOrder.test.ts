import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  MEASURES,
  type ShowSource,
  type StudyTask,
} from '../../../packages/sim-core/src/experiments/index.js';
import type { LoopSpec } from '../../../packages/sim-core/src/index.js';
import { orderStrain } from '../../../packages/sim-core/src/estimates/index.js';
import { normalQuantile } from '../../../packages/sim-core/src/numerics/index.js';
import {
  allowedOrder,
  keepsRule,
  keptModules,
  listRules,
  NO_RULES,
  onlyMoves,
  type OrderRule,
  type OrderRules,
} from '../../../packages/sim-core/src/orders/index.js';
import { stream } from '../../../packages/sim-core/src/random/index.js';
import {
  type BestOrder,
  bestOrder,
  type BestOrderOptions,
  Study,
  StudyStopped,
} from '../../../packages/sim-core/src/studies/index.js';
import { exampleLoop } from '../../docs/exampleLoop.js';
import { arbitraryRules, permutations } from '../orders/arbitraryRules.js';

const EIGHT = [...'abcdefgh'];
const [lift] = exampleLoop.modules;

function build(order: readonly string[]): LoopSpec {
  const modules = order.map((id) => ({ ...lift!, id }));
  return { ...exampleLoop, modules, supply: { kind: 'charge', placed: order.map(() => 1) } };
}

const orderOf = ({ spec }: StudyTask): string[] => spec.modules.map(({ id }) => id);

/** A source in which every measure is a number made up from the task. */
function made(value: (task: StudyTask) => number): ShowSource {
  return {
    size: 4,
    run: (task) => {
      const found = value(task);
      return Promise.resolve(MEASURES.map(() => found));
    },
    close: () => Promise.resolve(),
  };
}

const uniform = (purpose: string): number => stream({ seed: 17, replication: 0, place: null, purpose })();

interface Case {
  readonly rules?: Partial<OrderRules>;
  readonly today?: readonly string[];
  readonly seed?: number;
  readonly strain?: (order: readonly string[]) => number;
}

function look(
  value: (task: StudyTask) => number,
  options: BestOrderOptions,
  { rules = { fixed: ['a'] }, today = EIGHT, seed = 1, strain = () => 0 }: Case = {},
): Promise<BestOrder> {
  const listed = listRules({ ...NO_RULES, ...rules }, today);
  const study = new Study({ seed, source: made(value) });
  return bestOrder(study, { today, rules: listed, closed: true, build, strain }, options);
}

/** Made-up costs of one module right after another in a loop, for each of several cases. */
function costOf(name: string, order: readonly string[]): number {
  return order.reduce((sum, id, i) => sum + 10 * uniform(`${name} ${order.at(i - 1) ?? ''}${id}`), 0);
}

function costTable(name: string): (order: readonly string[]) => number {
  const costs = new Map(
    EIGHT.flatMap((a) => EIGHT.map((b) => [`${a}${b}`, 10 * uniform(`${name} ${a}${b}`)] as const)),
  );
  return (order) => order.reduce((sum, id, i) => sum + (costs.get(`${order.at(i - 1)}${id}`) ?? NaN), 0);
}

/** The least cost among all orders that keep the rules, by trying them all. */
function leastCost(cost: (order: readonly string[]) => number, rules: readonly OrderRule[]): number {
  return permutations(EIGHT)
    .filter((order) => rules.every((rule) => keepsRule(rule, order, true)))
    .reduce((least, order) => Math.min(least, cost(order)), Infinity);
}

describe('the best order of eight modules', () => {
  it.each(['first', 'second', 'third', 'fourth', 'fifth', 'sixth'])(
    'is found as by trying all 5,040 with the counter in its place, in the %s case',
    async (name) => {
      const cost = costTable(name);
      expect(cost(EIGHT)).toBeCloseTo(costOf(name, EIGHT), 9);
      const found = await look((task) => cost(orderOf(task)), { budget: 2000 });
      expect(found.order[0]).toBe('a');
      expect(cost(found.order)).toBeCloseTo(
        leastCost(cost, listRules({ ...NO_RULES, fixed: ['a'] }, EIGHT)),
        9,
      );
      expect(found.gain?.mean).toBeCloseTo(cost(EIGHT) - cost(found.order), 9);
      // Far from all of them were tried.
      expect(found.search_orders).toBeLessThan(500);
    },
  );

  it.each<[string, Partial<OrderRules>]>([
    [
      'with two groups',
      {
        together: [
          { name: 'x', modules: ['b', 'c', 'd'] },
          { name: 'y', modules: ['f', 'g'] },
        ],
      },
    ],
    [
      'with pairs apart',
      {
        apart: [
          ['b', 'e'],
          ['c', 'h'],
        ],
        neverRightAfter: [
          ['d', 'b'],
          ['g', 'f'],
        ],
      },
    ],
    [
      'with places and sides',
      {
        fixed: ['a', 'e'],
        neverBehind: [
          ['b', 'g'],
          ['c', 'h'],
        ],
      },
    ],
  ])('is found among those that keep the rules, %s', async (_, rules) => {
    for (const name of ['first', 'second', 'third']) {
      const cost = costTable(name);
      const listed = listRules({ ...NO_RULES, fixed: ['a'], ...rules }, EIGHT);
      const start = allowedOrder(listed, EIGHT, true);
      const found = await look(
        (task) => cost(orderOf(task)),
        { budget: 2000, ...(start && { start }) },
        { rules: { fixed: ['a'], ...rules } },
      );
      expect(listed.every((rule) => keepsRule(rule, found.order, true))).toBe(true);
      expect(cost(found.order)).toBeCloseTo(leastCost(cost, listed), 9);
    }
  });

  it('is found through noise, and the move that brings it is named', async () => {
    // Only one thing counts: g right after b is worth 6 of 40; the noise of a show is 4, half of it the same for all.
    const value = (task: StudyTask): number => {
      const order = orderOf(task);
      const noise = (purpose: string): number =>
        normalQuantile(stream({ seed: task.seed, replication: task.replication, place: null, purpose })());
      return (
        40 -
        (order.indexOf('g') === order.indexOf('b') + 1 ? 6 : 0) +
        2 * noise('all') +
        2 * noise(order.join(''))
      );
    };
    const found = await look(value, { budget: 600 });
    expect(found.verdict).toBe('better');
    expect(found.order.indexOf('g')).toBe(found.order.indexOf('b') + 1);
    expect(found.gain?.low).toBeLessThan(6);
    expect(found.gain?.high).toBeGreaterThan(6);
    // Each move is worth 6 or nothing: 6 if without it g is not right after b.
    const kept = keptModules(EIGHT, found.order, ['a']);
    const carried = found.moves.flatMap(({ modules }) => modules);
    let telling = 0;
    for (const { modules, gain } of found.moves) {
      const left = carried.filter((id) => !modules.includes(id));
      const without = onlyMoves(EIGHT, found.order, left, kept);
      const worth = without.indexOf('g') === without.indexOf('b') + 1 ? 0 : 6;
      if (worth > 0) telling++;
      const half = ((gain?.high ?? NaN) - (gain?.low ?? NaN)) / 2;
      // 95 % intervals, a few at once: half as wide again.
      expect(Math.abs((gain?.mean ?? NaN) - worth)).toBeLessThan(1.5 * half);
    }
    expect(telling).toBeGreaterThan(0);
  });
});

describe('looking for an order', () => {
  const noise = (task: StudyTask, purpose: string): number =>
    normalQuantile(stream({ seed: task.seed, replication: task.replication, place: null, purpose })());

  it.each([
    ['all orders are equal', 200, () => 0],
    // The search is fooled in every answer: only the shows that judge know that all orders are equal.
    [
      'it only looked as if',
      80,
      (task: StudyTask) => (task.replication < 1_000_000 ? costOf('x', orderOf(task)) : 0),
    ],
  ])('does not sell luck: where %s, at most 5 %% of 300 answers say better', async (_, budget, looks) => {
    let better = 0;
    let proposed = 0;
    for (let seed = 0; seed < 300; seed++) {
      const value = (task: StudyTask): number =>
        30 + looks(task) + 3 * noise(task, 'all') + 3 * noise(task, orderOf(task).join(''));
      const { verdict } = await look(value, { budget }, { seed });
      if (verdict === 'better') better++;
      if (verdict !== 'nothing found') proposed++;
    }
    expect(better).toBeLessThanOrEqual(proposed);
    expect(better / 300).toBeLessThanOrEqual(0.05);
  });

  it('never simulates an order that breaks a rule or carries too many, but today’s', async () => {
    const SEVEN = EIGHT.slice(0, 7);
    let allowed = 0;
    await fc.assert(
      fc.asyncProperty(arbitraryRules(SEVEN), fc.integer({ min: 1, max: 7 }), async (rules, mostMoved) => {
        const listed = listRules(rules, SEVEN);
        const start = allowedOrder(listed, SEVEN, true);
        const moved = (order: readonly string[]): number => 7 - keptModules(SEVEN, order, rules.fixed).length;
        fc.pre(start !== undefined && moved(start) <= mostMoved);
        allowed++;
        const value = (task: StudyTask): number => {
          const order = orderOf(task);
          if (order.join('') !== SEVEN.join('')) {
            expect(listed.filter((rule) => !keepsRule(rule, order, true))).toEqual([]);
            expect(moved(order)).toBeLessThanOrEqual(mostMoved);
          }
          return costOf('any', order) + noise(task, order.join(''));
        };
        const found = await look(
          value,
          { budget: 60, mostMoved, ...(start && { start }) },
          { rules, today: SEVEN },
        );
        expect(found.moves.flatMap(({ modules }) => modules).length).toBeLessThanOrEqual(mostMoved);
      }),
      { numRuns: 60, seed: 3 },
    );
    expect(allowed).toBe(60);
  });

  it('is led by the rough figure, and not misled by it', async () => {
    const cost = costTable('led');
    const value = (task: StudyTask): number => cost(orderOf(task));
    const led = await look(value, { budget: 120 }, { strain: cost });
    const blind = await look(value, { budget: 120 });
    expect(cost(led.order)).toBeLessThan(cost(blind.order));
    const misled = await look(value, { budget: 400 }, { strain: (order) => -cost(order) });
    expect(cost(misled.order)).toBeLessThan(cost(EIGHT));
  });

  it('asks the same shows again whatever is known already, and judges on others than it searches on', async () => {
    const asked: number[] = [];
    const value = (task: StudyTask): number => {
      asked.push(task.replication);
      return costOf('first', orderOf(task)) + noise(task, orderOf(task).join(''));
    };
    const first = await look(value, { budget: 100 });
    const fresh = asked.filter((replication) => replication >= 1_000_000);
    expect(fresh.length).toBeGreaterThanOrEqual(30);
    expect(asked.length).toBeLessThanOrEqual(100);
    expect(await look(value, { budget: 100 })).toEqual(first);
  });

  it('of 300 modules can be stopped within a second, and keeps little in memory', async () => {
    const many = Array.from({ length: 300 }, (_, i) => `m${i}`);
    const modules = many.map((id, i) => ({
      ...lift!,
      id,
      cycle: { family: 'constant', value: 0.6 + (i % 7) / 20 } as const,
    }));
    const spec: LoopSpec = {
      ...exampleLoop,
      modules,
      supply: { kind: 'charge', placed: many.map(() => 10) },
    };
    const strain = orderStrain(spec);
    const places = new Map(many.map((id, place) => [id, place]));
    const heap = (): number => process.memoryUsage().heapUsed / 2 ** 20;
    const before = heap();
    let most = before;
    for (const milliseconds of [200, 2500]) {
      const controller = new AbortController();
      let stoppedAt = Infinity;
      let late = -Infinity;
      const begun = performance.now();
      const watch = setInterval(() => (most = Math.max(most, heap())), 20);
      setTimeout(() => {
        stoppedAt = performance.now();
        late = stoppedAt - begun - milliseconds;
        controller.abort();
      }, milliseconds);
      const value = (task: StudyTask): number => costOf('many', orderOf(task).slice(0, 20));
      const study = new Study({ seed: 1, source: made(value), signal: controller.signal });
      const problem = {
        today: many,
        rules: listRules({ ...NO_RULES, fixed: ['m0'] }, many),
        closed: true,
        build,
        strain: (order: readonly string[]) => strain(order.map((id) => places.get(id) ?? 0)),
      };
      // More shows than can be done by then.
      await expect(bestOrder(study, problem, { budget: 1_000_000 })).rejects.toThrow(StudyStopped);
      clearInterval(watch);
      // The press of Ctrl-C is heard, and obeyed.
      expect(late).toBeLessThan(1000);
      expect(performance.now() - stoppedAt).toBeLessThan(1000);
    }
    // All 134,000 orders one step away would take 8 bytes for each of 300 modules: over 300 MB.
    expect(most - before).toBeLessThan(150);
  });

  it('says that nothing was found where nothing may be carried, and refuses what does not fit', async () => {
    const none = await look(() => 1, { budget: 40, mostMoved: 0 });
    expect(none).toMatchObject({ verdict: 'nothing found', gain: null, moves: [], order: EIGHT });
    await expect(look(() => 1, { budget: 39 })).rejects.toThrow(/budget is 39/);
    const rules = { neverBehind: [['h', 'a']] as const };
    await expect(look(() => 1, { budget: 40 }, { rules })).rejects.toThrow(
      /start .* an order that keeps the rules/,
    );
  });
});
