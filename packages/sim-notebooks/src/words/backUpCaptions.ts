import {
  estimatePhrase,
  heldUp,
  KINDS,
  lock,
  type ModuleEstimates,
  type RunResult,
  shows,
} from '@lapwright/sim-core';
import { dots } from './dots.js';

/** Which modules are held up, and by which. */
export function heldUpCaption(result: RunResult, shown: number): string {
  const found = heldUp(result);
  if (found === undefined) return `No module was held up in ${shows(result.replications)}.`;
  const { most, by } = found;
  const held = (module: ModuleEstimates): boolean => (module.held_up_share.mean ?? 0) > 0;
  const all = result.modules.filter(held).length;
  const cut = all > shown ? ` The ${shown} highest of ${all} are shown.` : '';
  const why =
    by === undefined
      ? 'All modules hold each other up: there is no room for a ball to move into.'
      : `Go on downstream from there: the first module that is not held up nearly as much is ${by.id}, and it is what the others wait for.`;
  return `The share of time in which a mechanism that is not stopped waits at the end of its cycle, because the run-out behind it is full back to it. Highest at ${most.id}: ${estimatePhrase(most.held_up_share, KINDS.share)}. ${why} ${dots(result.replications)}${cut}`;
}

/** When the loop moves, and whether it locks. */
export function movingCaption(result: RunResult): string {
  const { moving_share: moving, replications } = result;
  const flows =
    moving.mean === null
      ? 'The time measured has no full minute, so it cannot be said how much of it the loop moves.'
      : `In ${estimatePhrase(moving, KINDS.share)} of the full public minutes a ball passes the counter.`;
  const locks = lock(result);
  const { show } = result.locked;
  const locked =
    locks === undefined
      ? show.high === 0
        ? ''
        : ` In none of ${shows(replications)} did it lock.`
      : ` ${locks.statement}. From then on nothing moves until hands change something. ${locks.remedy}`;
  return `${flows}${locked}`;
}
