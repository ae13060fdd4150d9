import { CLEAR_JOB, requestMinder, SWAP_JOB } from './crew.js';
import type { LoopState } from './loopState.js';

/** A stop that needs the crew is known: a minder is asked to clear it, or to swap a module that is to be pulled. */
export function askForMinder(s: LoopState, m: number): void {
  if (s.wantedOut[m] === 0) requestMinder(s, CLEAR_JOB, m);
  else if (!isAsked(s, SWAP_JOB, m)) requestMinder(s, SWAP_JOB, m);
}

/** True while such a job waits for a minder. */
export function isAsked(s: LoopState, kind: number, m: number): boolean {
  return s.jobs.includes(kind * s.loop.modules + m);
}
