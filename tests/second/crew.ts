import { beginToSetLever } from './levers.js';
import { beginToPutBack, beginToSwap } from './pulling.js';
import { walkAndClear } from './stops.js';
import { beginToSweep } from './sweeping.js';
import type { Place, Table } from './table.js';
import { beginToTopUp } from './toppingUp.js';

/*
 * MODEL.md, "The crew".
 */

/** What a minder is asked for. */
export interface Job {
  kind: 'clear' | 'swap' | 'put back' | 'lever' | 'sweep' | 'top up';
  readonly place: Place | undefined;
}

/** A minder is asked for; a free one takes it up at the end of this event. */
export function askFor(t: Table, kind: Job['kind'], place?: Place): Job {
  const job: Job = { kind, place };
  t.crew.queue.push(job);
  return job;
}

/** A request that waits is withdrawn. */
export function withdraw(t: Table, job: Job | undefined): void {
  t.crew.queue = t.crew.queue.filter((other) => other !== job);
}

/** The minder of a job is free again. */
export function setFree(t: Table, job: Job | undefined): void {
  t.crew.busy = t.crew.busy.filter((other) => other !== job);
}

/** Free minders take up what waits. */
export function takeUpJobs(t: Table): void {
  const { crew } = t;
  while (crew.busy.length < crew.onDuty) {
    const job = nextJob(t);
    if (!job) return;
    withdraw(t, job);
    crew.busy.push(job);
    begin(t, job);
  }
}

/** At a place where a minder is clearing or swapping, no second one starts to clear or swap. */
function nextJob(t: Table): Job | undefined {
  const open = t.crew.queue.filter(({ kind, place }) => kind === 'lever' || place?.attendedBy === undefined);
  if (t.spec.crew.rule === 'first_come') return open[0];
  const most = Math.max(...open.map(share));
  return open.find((job) => share(job) === most);
}

/** Share of its capacity at which the basket of a job's place stands; a place without a basket counts as full. */
function share({ kind, place }: Job): number {
  if (!place || kind === 'sweep' || kind === 'top up') return 0;
  const { capacity } = place.machine.basket;
  return capacity === 0 ? 1 : place.basket.length / capacity;
}

function begin(t: Table, job: Job): void {
  const { kind, place } = job;
  if (kind === 'sweep') beginToSweep(t, job);
  else if (kind === 'top up') beginToTopUp(t, job);
  else if (!place) throw new Error(`nobody can ${kind} nowhere`);
  else if (kind === 'lever') beginToSetLever(t, place, job);
  else if (kind === 'swap') beginToSwap(t, place, job);
  else if (kind === 'put back') beginToPutBack(t, place, job);
  else {
    place.attendedBy = job;
    walkAndClear(t, place);
  }
}
