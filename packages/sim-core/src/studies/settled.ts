import { roughCut } from '../estimates/index.js';
import type { LoopSpec } from '../model/spec/index.js';

/** After so many laps the crowd stands where it gathers. */
const LAPS = 3;

/**
 * From when on a show has settled, whatever way the charge was put in: three laps (balls over flow, Little's law), or three
 * times the way through a chain, in whole minutes; not before the warm-up of the file is over, and not after half the
 * show.
 *
 * @returns public seconds after the opening
 * @example
 * settledAfter(exampleLoop) // => 120
 */
export function settledAfter(spec: LoopSpec): number {
  const { supply, show } = spec;
  const { flowBps, freeLapSeconds } = roughCut(spec);
  const balls = supply.kind === 'charge' ? supply.placed.reduce((sum, placed) => sum + placed, 0) : 0;
  const lap = supply.kind === 'charge' && flowBps > 0 ? balls / flowBps : freeLapSeconds;
  const settled = 60 * Math.ceil((LAPS * lap) / 60);
  return Math.min(Math.max(settled, show.warmUpSeconds), show.seconds / 2);
}
