import type { Pair } from '../../orders/index.js';
import type { Reference } from '../fields/index.js';
import type { TableRead } from '../form/tableForm.js';
import type { TableRules } from '../scenario.js';
import type { Names } from './names.js';

/**
 * What a file says must hold of the order; undefined when something in it is wrong (reported). Modules on the side table may
 * be named too: what is said of them holds when they are in the loop.
 */
export function toTableRules(read: TableRead, known: Names<string>): TableRules | undefined {
  const {
    fixed = [],
    together = [],
    apart = [],
    never_right_after: after = [],
    never_behind: behind = [],
  } = read;
  let ok = true;
  const resolved = <T>(value: T | undefined): T[] => {
    if (value === undefined) ok = false;
    return value === undefined ? [] : [value];
  };
  /** The names of a list, each once. */
  const names = (references: readonly Reference[]): string[] => {
    const seen = new Set<string>();
    return references.flatMap((one) => {
      const id = known.resolve(one);
      if (id !== undefined && seen.has(id))
        return resolved<string>(one.found.report('duplicate', `module ${id} stands in this list twice`));
      seen.add(id ?? '');
      return resolved(id);
    });
  };
  const pairs = (entries: NonNullable<TableRead['never_behind']>): Pair[] =>
    entries.flatMap(({ name, at, value }) => {
      const [id] = resolved(known.lookUp(name, at));
      return names(value).flatMap((other): Pair[] => {
        if (other !== id) return id === undefined ? [] : [[id, other]];
        return resolved<Pair>(
          at.report('contradiction', `${id} cannot stand after itself`, 'Name other modules here.'),
        );
      });
    });
  const rules: TableRules = {
    fixed: names(fixed),
    builders: together === 'builders',
    groups: together === 'builders' ? [] : together.map(names),
    apart: apart.flatMap((one): Pair[] => {
      const [a, b] = names(one);
      return a === undefined || b === undefined ? [] : [[a, b]];
    }),
    neverRightAfter: pairs(after),
    neverBehind: pairs(behind),
  };
  return ok ? rules : undefined;
}
