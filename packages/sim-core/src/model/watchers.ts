import type { ModuleSpec } from './spec/index.js';

/** By module: the modules with a lever that watch it, in loop order. */
export function watchersOf(modules: readonly ModuleSpec[]): readonly (readonly number[])[] {
  const watchers = modules.map((): number[] => []);
  for (const [m, { lever }] of modules.entries())
    for (const watched of new Set(lever?.watches)) watchers[watched]?.push(m);
  return watchers;
}
