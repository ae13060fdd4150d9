import { bestOrderAnswer } from '../../answers/index.js';
import { reorder } from '../../changes/index.js';
import { orderStrain } from '../../estimates/index.js';
import { loadScenarioFile } from '../../scenario/index.js';
import { bestOrder } from '../../studies/index.js';
import type { ExitCode } from '../exitCode.js';
import { askQuestion } from './askQuestion.js';
import { orderRulesOf, startingOrder, type TypedRules } from './orderRulesOf.js';
import type { QuestionOptions } from './questionOptions.js';
import { scenarioReference } from './scenarioReference.js';

/** Options of the best-order command, as the command line gives them. */
export interface BestOrderCommandOptions extends QuestionOptions, TypedRules {
  readonly on: string;
  readonly moves: number;
  readonly budget: number;
}

/** `lapwright best-order`: an order of the same modules that does better, and what each move brings. */
export async function bestOrderCommand(
  file: string,
  options: BestOrderCommandOptions,
  args: readonly string[],
): Promise<ExitCode> {
  const scenario = loadScenarioFile(file);
  const { spec } = scenario;
  const { on, moves, budget } = options;
  const today = spec.modules.map(({ id }) => id);
  const closed = spec.supply.kind === 'charge';
  const rules = orderRulesOf(scenario, options);
  const mostMoved = Math.min(moves, today.length);
  const start = startingOrder(today, rules, closed, mostMoved);
  const places = new Map(today.map((id, place) => [id, place]));
  const strain = orderStrain(spec);
  return askQuestion(options, {
    scenarios: [scenarioReference(scenario)],
    args,
    ask: async (study) =>
      bestOrderAnswer(
        scenario.name,
        await bestOrder(
          study,
          {
            today,
            rules,
            closed,
            build: reorder(file),
            strain: (order) => strain(order.map((id) => places.get(id) ?? 0)),
          },
          { budget, on, mostMoved, start },
        ),
      ),
  });
}
