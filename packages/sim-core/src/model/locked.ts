import { HELD_UP, type LoopState, WAITING } from './loopState.js';

/**
 * Notes the first moment at which nothing in a closed loop can move any more: no mechanism is in a cycle, none is
 * stopped, every ball outside baskets and mechanisms waits at the end of a run-out, and somebody is held up.
 */
export function checkLock(s: LoopState): void {
  if (s.locked !== null || s.heldUpModules === 0) return;
  for (let m = 0; m < s.loop.modules; m++) {
    if (s.stopped[m] === 1 || (s.phase[m] !== WAITING && s.phase[m] !== HELD_UP)) return;
    if (s.runOuts.count[m] > s.waitingAtEnd[m]) return;
  }
  if (s.chutes.count.some((balls) => balls > 0)) return;
  const heldUp = Int32Array.from(s.phase.keys()).filter((m) => s.phase[m] === HELD_UP);
  s.locked = { at: s.queue.now, heldUp };
  s.log?.({
    time: s.queue.now,
    kind: 'locked',
    module: -1,
    what: Array.from(heldUp, (m) => s.loop.spec.modules[m].id).join(', '),
  });
}
