import { SWEEP, TOP_UP } from './agenda.js';
import { putIn, room } from './basket.js';
import { onPath } from './books.js';
import { askFor, type Job, setFree } from './crew.js';
import { isNothing } from './luck.js';
import { roomMayHaveAppeared, startIfItCan } from './mechanism.js';
import { drawTicks, newBall, type Place, planIn, type Table, ticks } from './table.js';

/*
 * MODEL.md, "Topping up".
 */

/** At the end of an event in which balls have left the path: is a top-up to be asked for? */
export function askForTopUp(t: Table): void {
  const { topUp } = t.spec.crew;
  const someLeft = t.someLeft;
  t.someLeft = false;
  if (!topUp || !someLeft || t.topUpPending || t.box === 0 || onPath(t) >= topUp.below) return;
  t.topUpPending = true;
  if (isNothing(topUp.takes)) planIn(t, 0, [SWEEP, 0, TOP_UP], () => fillUp(t));
  else askFor(t, 'top up');
}

export function beginToTopUp(t: Table, job: Job): void {
  const { topUp } = t.spec.crew;
  if (!topUp) return;
  planIn(t, drawTicks(t, null, 'top-up', topUp.takes), [SWEEP, 0, TOP_UP], () => {
    setFree(t, job);
    fillUp(t);
  });
}

function fillUp(t: Table): void {
  const { topUp } = t.spec.crew;
  if (!topUp) return;
  t.topUpPending = false;
  const into = t.places[topUp.into] as Place;
  const balls = Math.max(0, Math.min(topUp.upTo - onPath(t), t.box, room(into)));
  t.box -= balls;
  if (t.books.open) t.books.toppedUp += balls;
  putIn(
    t,
    into,
    Array.from({ length: balls }, () => newBall()),
  );
  if (onPath(t) < topUp.below && t.box > 0) {
    // Until then nothing else is asked for.
    t.topUpPending = true;
    planIn(t, ticks(60), [SWEEP, 0, TOP_UP], () => {
      t.topUpPending = false;
      t.someLeft = true;
    });
  }
  startIfItCan(t, into);
  roomMayHaveAppeared(t, into);
}
