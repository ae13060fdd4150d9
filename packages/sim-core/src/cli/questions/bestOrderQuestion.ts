import { bestOrderAnswer } from '../../answers/index.js';
import { reorder } from '../../changes/index.js';
import { orderStrain } from '../../estimates/index.js';
import { bestOrder } from '../../studies/index.js';
import type { Ask, AskedScenario } from './askedScenario.js';
import { orderRulesOf, startingOrder, type TypedRules } from './orderRulesOf.js';

/** By what an order is better, which may be tried, and how many shows that may take. */
export interface BestOrderQuestionOptions extends TypedRules {
  readonly on: string;
  /** Modules that may be carried elsewhere at most. */
  readonly moves: number;
  /** Shows in all. */
  readonly budget: number;
}

/**
 * An order of the same modules that does better, and what each move brings.
 *
 * @throws InputError when it cannot be asked like this
 * @example
 * const asked = askedFile('scenarios/chain-of-five.yaml');
 * const study = new Study({ seed: 1, source: showsHere() });
 * const ask = bestOrderQuestion(asked, { on: 'spills_per_hour', fix: ['first'], moves: 2, budget: 40 });
 * (await ask(study)).question // => 'best-order'
 */
export function bestOrderQuestion(
  { scenario, text, changes }: AskedScenario,
  options: BestOrderQuestionOptions,
): Ask {
  const { spec } = scenario;
  const { on, moves, budget } = options;
  const today = spec.modules.map(({ id }) => id);
  const closed = spec.supply.kind === 'charge';
  const rules = orderRulesOf(scenario, options);
  const mostMoved = Math.min(moves, today.length);
  const start = startingOrder(today, rules, closed, mostMoved);
  const places = new Map(today.map((id, place) => [id, place]));
  const strain = orderStrain(spec);
  return async (study) =>
    bestOrderAnswer(
      scenario.name,
      await bestOrder(
        study,
        {
          today,
          rules,
          closed,
          build: reorder({ text, file: scenario.source.file }, changes),
          strain: (order) => strain(order.map((id) => places.get(id) ?? 0)),
        },
        { budget, on, mostMoved, start },
      ),
    );
}
