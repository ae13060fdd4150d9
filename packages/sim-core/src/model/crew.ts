import { CLEARED, HANDS, SWEEP } from './eventClass.js';
import { type LoopState, TOP_UP_UNDER_WAY } from './loopState.js';
import { beginJobSwap, beginPutBack } from './pulls.js';

/*
 * Jobs are numbers: the kind times the number of modules, plus the module; those that belong to no module are negative.
 */
export const CLEAR_JOB = 0;
export const SWAP_JOB = 1;
export const BACK_JOB = 2;
export const LEVER_JOB = 3;
export const SWEEP_JOB = -1;
export const TOP_UP_JOB = -2;

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

/** A job at a module asks for a minder; sweeping and topping up are at none. */
export function requestMinder(s: LoopState, kind: number, m = 0): void {
  settleCrew(s);
  s.jobs.push(kind < 0 ? kind : kind * s.loop.modules + m);
  s.crewChanged = true;
}

/** A job that waits for a minder is not to be done any more; true when it was waiting. */
export function withdraw(s: LoopState, kind: number, m: number): boolean {
  const i = s.jobs.indexOf(kind * s.loop.modules + m);
  if (i < 0) return false;
  settleCrew(s);
  s.jobs.splice(i, 1);
  return true;
}

/** A minder has finished a job. */
export function freeMinder(s: LoopState, minder: number): void {
  settleCrew(s);
  s.busy--;
  s.minderJob[minder] = undefined;
  s.crewChanged = true;
}

/** The number of minders on duty becomes what the plan says for now; who is busy finishes first. */
export function changeDuty(s: LoopState): void {
  settleCrew(s);
  const { duty } = s.loop.spec.crew;
  s.minders = duty[s.dutyStep].minders;
  s.log?.({ time: s.queue.now, kind: 'duty', module: -1, what: String(s.minders) });
  s.dutyStep++;
  s.crewChanged = true;
}

/** At the end of an event, when all balls have moved: gives waiting jobs to free minders. */
export function assignJobs(s: LoopState): void {
  s.crewChanged = false;
  if (s.busy < s.minders && s.jobs.length > 0) settleCrew(s);
  while (s.busy < s.minders && s.jobs.length > 0) {
    const i = nextJob(s);
    if (i < 0) return;
    const [job] = s.jobs.splice(i, 1);
    let minder = 1;
    while (s.minderJob[minder] !== undefined) minder++;
    s.busy++;
    s.minderJob[minder] = job;
    start(s, job, minder);
  }
}

/** Index of the job to be done next, -1 when a minder is at every place that has one. */
function nextJob(s: LoopState): number {
  if (s.loop.spec.crew.rule === 'first_come') return s.jobs.findIndex((job) => isOpen(s, job));
  let best = -1;
  let bestShare = -1;
  for (const [i, job] of s.jobs.entries()) {
    if (!isOpen(s, job)) continue;
    const m = job % s.loop.modules;
    // A place without a basket is full as soon as something waits for it.
    const share = job < 0 ? 0 : s.capacity[m] === 0 ? 1 : s.baskets.count[m] / s.capacity[m];
    if (share > bestShare) {
      best = i;
      bestShare = share;
    }
  }
  return best;
}

/** False for clearing and swapping where another minder does so. */
function isOpen(s: LoopState, job: number): boolean {
  return job < 0 || job >= LEVER_JOB * s.loop.modules || s.workAt[job % s.loop.modules] === 0;
}

/** The minder begins the job. */
function start(s: LoopState, job: number, minder: number): void {
  if (job === SWEEP_JOB) {
    s.log?.({ time: s.queue.now, kind: 'sets_out', module: -1, minder, what: 'sweep' });
    s.queue.schedule(s.loop.timers.sweepDone, s.after(s.draws.draw(s.loop.sweepDraw)), SWEEP);
    return;
  }
  if (job === TOP_UP_JOB) {
    s.log?.({ time: s.queue.now, kind: 'sets_out', module: -1, minder, what: 'top up' });
    s.topUp = TOP_UP_UNDER_WAY;
    s.queue.schedule(s.loop.timers.topUp, s.after(s.draws.draw(s.loop.topUpDraw)), SWEEP);
    return;
  }
  const m = job % s.loop.modules;
  switch (Math.floor(job / s.loop.modules)) {
    case CLEAR_JOB:
      return startClearing(s, m, minder);
    case SWAP_JOB:
      return beginJobSwap(s, m, minder);
    case BACK_JOB:
      return beginPutBack(s, m, minder);
    default:
      s.log?.({ time: s.queue.now, kind: 'sets_out', module: m, minder, what: 'set the lever' });
      s.leverWork[m] = minder;
      s.queue.schedule(s.loop.timers.lever[m], s.after(s.draws.draw(s.loop.leverDraw[m])), HANDS);
  }
}

/** A minder walks to a stopped module and clears it. */
export function startClearing(s: LoopState, m: number, minder: number): void {
  const { queue, draws } = s;
  const { stops } = s.loop;
  const row = s.cause[m];
  s.log?.({ time: queue.now, kind: 'sets_out', module: m, minder, what: 'clear' });
  s.workAt[m] = minder;
  s.workFrom[m] = queue.now;
  queue.schedule(m, s.after(draws.draw(stops.walk[row]) + draws.draw(stops.clear[row])), CLEARED);
}
