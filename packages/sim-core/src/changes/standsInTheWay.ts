import type { Problem } from '../errors/index.js';

/**
 * Says plainly why a module cannot be taken out, and what to add so that it can.
 *
 * @param problem a name in the file that no longer means a module in the loop
 * @param module the module that was taken out
 * @param order the loop before that
 * @param listed the names in the list that the problem stands in; none when it stands in no list
 */
export function standsInTheWay(
  problem: Problem,
  module: string,
  order: readonly string[],
  listed: (path: string) => readonly string[],
): Problem {
  const why = reason(problem.path);
  if (why === undefined) return problem;
  const list = /^(.*)\[\d+\]$/.exec(problem.path)?.[1];
  const rest = list === undefined ? [] : listed(list).filter((name) => name !== module);
  const next = nextOf(order, module, /^modules\.([^.]+)\./.exec(problem.path)?.[1]);
  const value = list === undefined ? next : `[${(rest.length > 0 ? rest : [next]).join(',')}]`;
  const other = rest.length > 0 ? '' : ', or another module that stays';
  return {
    ...problem,
    rule: `${module} cannot be taken out like this: ${why}`,
    hint: `Add --set ${list ?? problem.path}=${value}${other}.`,
  };
}

/** What the module is needed for, by the place where its name stands. */
function reason(path: string): string | undefined {
  const [, section, owner = ''] = /^(modules|templates)\.([^.]+)\./.exec(path) ?? [];
  const whose = section === 'templates' ? `modules like ${owner}` : owner;
  if (path === 'counter') return 'balls and laps are counted there';
  if (path === 'crew.sweep.into') return 'what is swept up is put into its basket';
  if (path === 'crew.top_up.into') return 'balls from the box are put into its basket';
  if (/\.lever\.watches\[\d+\]$/.test(path)) return `the lever of ${whose} watches it`;
  if (path.endsWith('.when_full.return.to')) return `the overflow chute of ${whose} leads into its basket`;
  return undefined;
}

/** The module behind it that stays and is not the one whose key it is. */
function nextOf(order: readonly string[], module: string, owner: string | undefined): string {
  const place = order.indexOf(module);
  const others = [...order.slice(place + 1), ...order.slice(0, Math.max(0, place))];
  return others.find((id) => id !== owner && id !== module) ?? 'NAME';
}
