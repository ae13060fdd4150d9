import type { Problem } from '../errors/index.js';
import { type ScenarioDocument, suggest } from '../scenario/index.js';

/** What stands in the way of a change, before the scenario is read again. */
export type Obstacle = Pick<Problem, 'code' | 'path' | 'rule' | 'hint'>;

/** The ids of the modules in the loop, in the order in which balls pass them. */
export function orderOf(draft: ScenarioDocument): string[] {
  return draft.kind(['order']) === 'list' ? draft.names(['order']) : draft.keys(['modules']);
}

/** Why a name cannot be used as that of a module in the loop; undefined when it can. */
export function notInLoop(draft: ScenarioDocument, name: string): Obstacle | undefined {
  const order = orderOf(draft);
  if (order.includes(name)) return undefined;
  if (draft.keys(['modules']).includes(name)) {
    return {
      code: 'unknown_name',
      path: '',
      rule: `${name} is on the side table, but a module in the loop is needed here`,
      hint: `To put it into the loop: --with ${name} --after and a module.`,
    };
  }
  return noModule(draft, name, order);
}

/** That there is no such module, with what may have been meant. */
export function noModule(draft: ScenarioDocument, name: string, known: readonly string[]): Obstacle {
  if (draft.keys(['spares']).includes(name)) {
    return {
      code: 'unknown_name',
      path: '',
      rule: `${name} is a spare, but a module is needed here`,
      hint: 'What is described under modules: can stand in the loop.',
    };
  }
  return {
    code: 'unknown_name',
    path: '',
    rule: `there is no module "${name.slice(0, 60)}" here`,
    hint: suggest(name, known),
  };
}
