import type { Scenario, ScenarioDocument } from '../scenario/index.js';
import type { Change, PlaceBeside } from './change.js';
import { noModule, notInLoop, type Obstacle, orderOf } from './draft.js';
import { shareOut } from './shareOut.js';

/** Makes two modules of the loop change places. */
export function swap(draft: ScenarioDocument, [a, b]: readonly [string, string]): Obstacle[] {
  const order = orderOf(draft);
  const missing = obstacles(draft, [a, b]);
  if (missing.length > 0) return missing;
  if (a === b) return [alone(`${a} cannot change places with itself`)];
  draft.putPlain(
    ['order'],
    order.map((id) => (id === a ? b : id === b ? a : id)),
  );
  return [];
}

/** Puts a module of the loop at another place in it. */
export function move(draft: ScenarioDocument, change: Change & { readonly kind: 'move' }): Obstacle[] {
  const { module, place } = change;
  const missing = obstacles(draft, [module, place.module]);
  if (missing.length > 0) return missing;
  if (module === place.module) return [alone(`${module} cannot go ${place.side} itself`)];
  const others = orderOf(draft).filter((id) => id !== module);
  draft.putPlain(['order'], inserted(others, module, place));
  return [];
}

/** Puts a module of the side table into the loop. */
export function putIn(draft: ScenarioDocument, change: Change & { readonly kind: 'with' }): Obstacle[] {
  const { module, place } = change;
  const order = orderOf(draft);
  const all = draft.keys(['modules']);
  const aside = all.filter((id) => !order.includes(id));
  const missing: Obstacle[] = order.includes(module)
    ? [
        {
          ...alone(`${module} is in the loop already`),
          hint: `To put it elsewhere: --move ${module} --${place.side} ${place.module}.`,
        },
      ]
    : aside.includes(module)
      ? []
      : [
          aside.length > 0 || draft.keys(['spares']).includes(module)
            ? noModule(draft, module, aside)
            : {
                ...noModule(draft, module, all),
                hint: 'The side table is empty: every module stands in the loop.',
              },
        ];
  missing.push(...obstacles(draft, [place.module]));
  if (missing.length === 0) draft.putPlain(['order'], inserted(order, module, place));
  return missing;
}

/** Puts a module of the loop on the side table; balls that its basket was to hold at the start go to the others. */
export function takeOut(
  draft: ScenarioDocument,
  module: string,
  before: Omit<Scenario, 'source'> | undefined,
): Obstacle[] {
  const order = orderOf(draft);
  if (!order.includes(module) && draft.keys(['modules']).includes(module))
    return [alone(`${module} is on the side table already`)];
  const missing = obstacles(draft, [module]);
  if (missing.length > 0) return missing;
  if (order.length === 1) return [alone(`${module} is the only module, nothing would be left of the loop`)];
  draft.putPlain(
    ['order'],
    order.filter((id) => id !== module),
  );
  return shareOut(draft, module, order, before);
}

function inserted(order: readonly string[], module: string, { side, module: beside }: PlaceBeside): string[] {
  return order.flatMap((id) => (id !== beside ? [id] : side === 'after' ? [id, module] : [module, id]));
}

function obstacles(draft: ScenarioDocument, names: readonly string[]): Obstacle[] {
  return [...new Set(names)].flatMap((name) => notInLoop(draft, name) ?? []);
}

function alone(rule: string): Obstacle {
  return { code: 'contradiction', path: '', rule };
}
