import { SWEEP, SWEEP_DONE, SWEEP_DUE } from './agenda.js';
import { putIn } from './basket.js';
import { askFor, type Job, setFree } from './crew.js';
import { isNothing } from './luck.js';
import { roomMayHaveAppeared, startIfItCan } from './mechanism.js';
import { drawTicks, type Place, planIn, type Table, ticks } from './table.js';

/*
 * MODEL.md, "Sweeping".
 */

/** The first sweep, and all others, so many seconds apart. */
export function planSweeps(t: Table): void {
  const { sweep } = t.spec.crew;
  if (!sweep) return;
  planIn(t, ticks(sweep.everySeconds), [SWEEP, 0, SWEEP_DUE], () => {
    planSweeps(t);
    if (isNothing(sweep.takes)) sweepTheFloor(t);
    else if (!t.sweepPending) {
      t.sweepPending = true;
      askFor(t, 'sweep');
    }
  });
}

export function beginToSweep(t: Table, job: Job): void {
  const { sweep } = t.spec.crew;
  if (!sweep) return;
  planIn(t, drawTicks(t, null, 'sweep', sweep.takes), [SWEEP, 0, SWEEP_DONE], () => {
    t.sweepPending = false;
    setFree(t, job);
    sweepTheFloor(t);
  });
}

/** Balls are looked for where they lie now; what is found goes in, in the order in which it fell, as far as there is room. */
function sweepTheFloor(t: Table): void {
  const { sweep } = t.spec.crew;
  if (!sweep) return;
  for (const ball of [...t.floor].filter(({ found }) => !found)) {
    if (t.luck.chance(null, 'lost', sweep.lost)) {
      t.floor = t.floor.filter((other) => other !== ball);
      t.lost++;
      if (t.books.open) t.books.lost++;
    } else ball.found = true;
  }
  const into = t.places[sweep.into] as Place;
  t.floor = putIn(t, into, t.floor);
  startIfItCan(t, into);
  roomMayHaveAppeared(t, into);
}
