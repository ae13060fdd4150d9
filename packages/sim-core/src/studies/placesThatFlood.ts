import { leversFor } from '../experiments/index.js';
import type { LoopSpec } from '../model/spec/index.js';

/**
 * The places whose baskets may flood because one module stands still: its own; where a basket backs up also the one
 * before it, which is held up; where one has an overflow chute also the one that the chute leads to; and those whose
 * levers send balls back meanwhile.
 *
 * @returns indexes, the module's own first
 * @example
 * placesThatFlood(exampleLoop, 1) // => [1]
 */
export function placesThatFlood(spec: LoopSpec, place: number): number[] {
  const { modules, supply } = spec;
  const places = [place];
  for (let i = 0; i < places.length; i++) {
    const m = places[i] ?? place;
    const full = modules[m]?.basket.whenFull;
    const next = [
      ...(full?.kind === 'back_up' && (m > 0 || supply.kind === 'charge')
        ? [(m + modules.length - 1) % modules.length]
        : []),
      ...(full?.kind === 'return' ? [full.to] : []),
      ...(m === place ? leversFor(spec, m) : []),
    ];
    for (const other of next) if (!places.includes(other)) places.push(other);
  }
  return places;
}
