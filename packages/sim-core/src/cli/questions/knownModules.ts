import type { KnownModule } from '../../logs/index.js';
import type { ModuleSpec } from '../../model/spec/index.js';
import type { Scenario } from '../../scenario/index.js';

/** The modules that may be in a log of a scenario: those of the loop, of the side table, and spares. */
export function knownModules({ spec, sideTable }: Pick<Scenario, 'spec' | 'sideTable'>): KnownModule[] {
  return [
    ...spec.modules.map((module) => known(module, false)),
    ...[...sideTable, ...(spec.spares ?? [])].map((module) => known(module, true)),
  ];
}

function known({ id, builder, design, basket }: ModuleSpec, spare: boolean): KnownModule {
  return {
    id,
    ...(builder !== undefined && { builder }),
    ...(design !== undefined && { design }),
    ...(Number.isFinite(basket.capacity) && { basket: basket.capacity }),
    ...(spare && { spare }),
  };
}
