import { letGo } from './backUp.js';
import { freeMinder, LEVER_JOB, requestMinder, withdraw } from './crew.js';
import type { LoopState } from './loopState.js';
import { isAsked } from './notice.js';
import { fallIn } from './runAhead.js';

/** From now on it is known that place m is stopped. */
export function knowStopped(s: LoopState, m: number): void {
  s.known[m] = 1;
  for (const watcher of s.loop.watchers[m]) consider(s, watcher);
}

/** Place m runs again. */
export function knowRunning(s: LoopState, m: number): void {
  s.known[m] = 0;
  for (const watcher of s.loop.watchers[m]) consider(s, watcher);
}

/** Whether the lever of module m should send balls back. */
function shouldBeSet(s: LoopState, m: number): boolean {
  return s.loop.spec.modules[m].lever?.watches.some((watched) => s.known[watched] === 1) ?? false;
}

/** Asks for a minder when the lever of module m stands as it should not; calls one off who is not needed. */
function consider(s: LoopState, m: number): void {
  if (s.inPlace[m] !== m) return;
  if (shouldBeSet(s, m) === (s.leverSet[m] === 1)) {
    withdraw(s, LEVER_JOB, m);
  } else if (s.loop.leverDraw[m] < 0) {
    setLever(s, m);
  } else if (s.leverWork[m] === 0 && !isAsked(s, LEVER_JOB, m)) {
    requestMinder(s, LEVER_JOB, m);
  }
}

/** A minder has come to the lever of module m. */
export function leverDone(s: LoopState, m: number): void {
  const minder = s.leverWork[m];
  s.leverWork[m] = 0;
  if (s.inPlace[m] !== m || !setLever(s, m, minder))
    s.log?.({ time: s.queue.now, kind: 'lever_left', module: m, minder });
  freeMinder(s, minder);
}

/** The lever of module m is brought to where it should be; false when it is there already. */
function setLever(s: LoopState, m: number, minder?: number): boolean {
  const set = shouldBeSet(s, m) ? 1 : 0;
  if (set === s.leverSet[m]) return false;
  s.leverSet[m] = set;
  if (s.ahead[m] === 1) fallIn(s, m);
  s.log?.({
    time: s.queue.now,
    kind: set === 1 ? 'lever_back' : 'lever_forward',
    module: m,
    ...(minder !== undefined && { minder }),
  });
  letGo(s, m);
  return true;
}

/** Module m is out of the loop, and its lever with it. */
export function forgetLever(s: LoopState, m: number): void {
  if (s.loop.leverChute[m] < 0) return;
  s.leverSet[m] = 0;
  withdraw(s, LEVER_JOB, m);
}

/** Module m is back with its lever set to forward. */
export function recallLever(s: LoopState, m: number): void {
  if (s.loop.leverChute[m] >= 0) consider(s, m);
}
