import { InputError, type Problem } from '../../errors/index.js';
import {
  allowedOrder,
  contradiction,
  keepsRule,
  listRules,
  onlyMoves,
  type OrderGroup,
  orderMoves,
  keptModules,
  type OrderRule,
  type Pair,
  ruleWords,
} from '../../orders/index.js';
import { type Scenario, suggest } from '../../scenario/index.js';

/** Rules for the order as they were typed. */
export interface TypedRules {
  readonly fix?: readonly string[];
  readonly together?: readonly string[];
  readonly apart?: readonly string[];
  readonly neverRightAfter?: readonly string[];
  readonly neverBehind?: readonly string[];
}

/**
 * All rules for the order: those of the file and those typed. Where nothing else stays in its place in a loop, the counter
 * does: to turn the whole loop round would change nothing.
 *
 * @throws InputError with every name that is not in the loop, and when the rules contradict each other
 */
export function orderRulesOf(scenario: Scenario, typed: TypedRules): OrderRule[] {
  const { spec, rules: own } = scenario;
  const today = spec.modules.map(({ id }) => id);
  const closed = spec.supply.kind === 'charge';
  const problems: Problem[] = [];
  const names = (option: string, text: string, count: number, wanted: string): string[] => {
    const list = text.split(',').map((name) => name.trim());
    const report = (rule: string, hint: string): void =>
      void problems.push({ code: 'unknown_name', path: `${option} ${text}`, rule, hint });
    for (const name of list)
      if (!today.includes(name))
        report(`there is no module "${name.slice(0, 60)}" in the loop`, suggest(name, today));
    if (new Set(list).size < list.length) report('a module is named twice', 'Name each once.');
    else if (list.length < count || (wanted === 'two modules' && list.length > 2))
      report(`${wanted} are needed with a comma between them`, `Such as ${option} tipper,wheel.`);
    return list;
  };
  const pairs = (option: string, texts: readonly string[] = []): Pair[] =>
    texts.map((text) => {
      const [a = '', b = ''] = names(option, text, 2, 'two modules');
      return [a, b];
    });
  const inLoop = (pair: Pair): boolean => pair.every((id) => today.includes(id));
  const { together = [], fix = [] } = typed;
  const given = together
    .filter((text) => text !== 'builder')
    .map((text) => names('--together', text, 2, 'two modules or more'));
  const groups = [...(own?.groups ?? []), ...given].map((group) => group.filter((id) => today.includes(id)));
  const fixed = new Set([
    ...(own?.fixed ?? []),
    ...fix.flatMap((text) => names('--fix', text, 1, 'modules')),
  ]);
  const typedPairs = {
    apart: pairs('--apart', typed.apart),
    neverRightAfter: pairs('--never-right-after', typed.neverRightAfter),
    neverBehind: pairs('--never-behind', typed.neverBehind),
  };
  if (problems.length > 0) throw new InputError(problems);
  const stays = [...fixed].filter((id) => today.includes(id));
  const counter = today[spec.counter];
  if (closed && stays.length === 0 && counter !== undefined) stays.push(counter);
  const rules = listRules(
    {
      fixed: stays,
      together: [
        ...((own?.builders ?? false) || together.includes('builder') ? builderGroups(scenario) : []),
        ...groups
          .filter((group) => group.length > 1)
          .map((modules) => ({ name: modules.join(', '), modules })),
      ],
      apart: [...(own?.apart ?? []).filter(inLoop), ...typedPairs.apart],
      neverRightAfter: [...(own?.neverRightAfter ?? []).filter(inLoop), ...typedPairs.neverRightAfter],
      neverBehind: [...(own?.neverBehind ?? []).filter(inLoop), ...typedPairs.neverBehind],
    },
    today,
  );
  const against = contradiction(rules, today, closed);
  if (against.length > 0) {
    throw new InputError([
      {
        code: 'contradiction',
        path: '',
        rule: `no order was found that keeps all of these at once: ${against.map(ruleWords).join('; ')}`,
        hint: 'Take one of them out, on the command line or under table: in the file.',
      },
    ]);
  }
  return rules;
}

function builderGroups({ spec }: Scenario): OrderGroup[] {
  const groups = new Map<string, string[]>();
  for (const { id, builder } of spec.modules)
    if (builder !== undefined) groups.set(builder, [...(groups.get(builder) ?? []), id]);
  return [...groups].flatMap(([builder, modules]) =>
    modules.length > 1 ? [{ name: `the modules of ${builder}`, modules }] : [],
  );
}

/**
 * An order to begin with: today's if it keeps the rules, else one near it, with as few modules carried as was found.
 *
 * @throws InputError when that carries more than it may
 */
export function startingOrder(
  today: readonly string[],
  rules: readonly OrderRule[],
  closed: boolean,
  mostMoved: number,
): readonly string[] {
  const fixed = rules.flatMap((rule) => (rule.kind === 'fixed' ? [rule.module] : []));
  const keeps = (order: readonly string[]): boolean => rules.every((rule) => keepsRule(rule, order, closed));
  let start: readonly string[] = allowedOrder(rules, today, closed) ?? today;
  for (;;) {
    const kept = keptModules(today, start, fixed);
    const moves = orderMoves(today, start, fixed);
    const goal = start;
    const fewer = moves
      .map((move) => moves.filter((one) => one !== move).flatMap(({ modules }) => modules))
      .map((moved) => onlyMoves(today, goal, moved, kept))
      .find(keeps);
    if (fewer === undefined) break;
    start = fewer;
  }
  const moved = start.length - keptModules(today, start, fixed).length;
  if (moved <= mostMoved) return start;
  const broken = rules.filter((rule) => !keepsRule(rule, today, closed)).map(ruleWords);
  throw new InputError([
    {
      code: 'contradiction',
      path: '--moves',
      found: mostMoved,
      rule: `${moved} or more, because today's order does not keep these rules: ${broken.join('; ')}`,
      hint: `Write --moves ${moved}, or take a rule out.`,
    },
  ]);
}
