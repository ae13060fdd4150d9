import type { RunResult } from '../experiments/index.js';
import type { Estimate } from '../statistics/index.js';

/** Below this share of the minutes, that the loop does not always move tells something in any scenario. */
const MOVING = 0.99;

/**
 * Whether it tells something how much of the time the loop moves: modules can be taken out, held up or lock, or it often
 * stands.
 *
 * @example
 * tellsOfMoving(exampleResult) // => false
 */
export function tellsOfMoving(result: RunResult): boolean {
  const { moving_share: moving, pulls_per_show: pulls, modules, locked } = result;
  if (moving.mean === null) return false;
  return (
    moving.mean < MOVING ||
    canHappen(pulls) ||
    canHappen(locked.show) ||
    modules.some(({ held_up_share: heldUp }) => canHappen(heldUp))
  );
}

/** What cannot happen is zero up to the end of its interval; without an interval only what was seen is known. */
function canHappen({ mean, high, replications }: Estimate): boolean {
  return mean !== 0 || (replications > 1 && high !== 0);
}
