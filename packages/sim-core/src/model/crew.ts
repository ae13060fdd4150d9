import { CLEARED, SWEEP } from './eventClass.js';
import type { LoopState } from './loopState.js';

/** The job of sweeping; every other job is the number of the module to clear. */
export const SWEEP_JOB = -1;

/** Call before the crew or the number of stopped modules changes: books the time since the last change. */
export function settleCrew(s: LoopState): void {
  const now = s.queue.now;
  const seconds = now - s.crewFrom;
  if (seconds > 0) {
    s.totals.dutySeconds += s.minders * seconds;
    s.totals.busySeconds += Math.min(s.busy, s.minders) * seconds;
    s.totals.waitingJobSeconds += s.jobs.length * seconds;
    s.series.addCrew(s.busy * seconds, s.jobs.length * seconds, s.stoppedModules * seconds);
    s.crewFrom = now;
  }
}

/** A job asks for a minder. */
export function requestMinder(s: LoopState, job: number): void {
  settleCrew(s);
  s.jobs.push(job);
  assign(s);
}

/** A minder has finished a job. */
export function freeMinder(s: LoopState): void {
  settleCrew(s);
  s.busy--;
  assign(s);
}

/** The number of minders on duty becomes what the plan says for now; who is busy finishes first. */
export function changeDuty(s: LoopState): void {
  settleCrew(s);
  const { duty } = s.spec.crew;
  s.minders = duty[s.dutyStep].minders;
  s.dutyStep++;
  assign(s);
}

/** Gives waiting jobs to free minders. */
function assign(s: LoopState): void {
  while (s.busy < s.minders && s.jobs.length > 0) {
    const [job] = s.jobs.splice(s.spec.crew.rule === 'fullest_first' ? fullest(s) : 0, 1);
    s.busy++;
    start(s, job);
  }
}

function start(s: LoopState, job: number): void {
  const { queue, draws, stops } = s;
  if (job === SWEEP_JOB) {
    queue.schedule(s.sweepDoneTimer, s.after(draws.draw(s.sweepDraw)), SWEEP);
    return;
  }
  const row = s.cause[job];
  queue.schedule(job, s.after(draws.draw(stops.walk[row]) + draws.draw(stops.clear[row])), CLEARED);
}

/** Index of the waiting job whose basket is at the highest share of its capacity; the earlier one among equals. */
function fullest(s: LoopState): number {
  let best = 0;
  let bestShare = -1;
  for (const [i, job] of s.jobs.entries()) {
    const share = job === SWEEP_JOB ? 0 : s.baskets.count[job] / s.capacity[job];
    if (share > bestShare) {
      best = i;
      bestShare = share;
    }
  }
  return best;
}
