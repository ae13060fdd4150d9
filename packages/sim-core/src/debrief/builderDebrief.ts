import type { ModuleDebrief } from './moduleDebrief.js';

/** The modules of one builder. */
export interface BuilderDebrief {
  /** Null for modules of which nobody knows whose they are. */
  readonly builder: string | null;
  readonly modules: readonly ModuleDebrief[];
}

/**
 * Modules by builder, in alphabetical order: nobody is first by what went wrong. Modules without a builder come last.
 *
 * @example
 * const [some] = moduleDebriefs([{ module: 'tipper', where: 'show', watched: [{ from: 0, to: 60 }], batches: [], stops: [], spills: [] }]);
 * byBuilder([{ ...some, builder: 'Perrin' }, some]).map(({ builder }) => builder) // => ['Perrin', null]
 */
export function byBuilder(modules: readonly ModuleDebrief[]): BuilderDebrief[] {
  const names = [...new Set(modules.map(({ builder }) => builder))].toSorted((a, b) =>
    a === null ? 1 : b === null ? -1 : a < b ? -1 : 1,
  );
  return names.map((builder) => ({ builder, modules: modules.filter((one) => one.builder === builder) }));
}
