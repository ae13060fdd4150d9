import { CLEARED, NOTICED, STOP } from './agenda.js';
import { fall } from './basket.js';
import { count } from './books.js';
import { refreshClocks, wind } from './clocks.js';
import { askFor, setFree } from './crew.js';
import { reviewLevers } from './levers.js';
import { goOn, interrupt, letGo, roomMayHaveAppeared, startIfItCan } from './mechanism.js';
import { considerPulling } from './pulling.js';
import { mayLetGo } from './runOut.js';
import { drawTicks, isStopped, type Machine, type Place, planIn, type Table, ticks } from './table.js';

/*
 * MODEL.md, "Stops".
 */

/** Which causes are going to strike in the cycle that begins, and when: decided at the pick of n balls. */
export function strikesInThisCycle(
  t: Table,
  place: Place,
  n: number,
  crowded: readonly boolean[],
): Place['strikes'] {
  const { owner, causes } = place.machine;
  return causes.flatMap(({ id, trigger, crowded: crowding }, cause) => {
    if (trigger.kind !== 'per_cycle' && trigger.kind !== 'per_ball') return [];
    const p = Math.min(1, trigger.probability * (crowded[cause] && crowding ? crowding.times : 1));
    const trials = trigger.kind === 'per_ball' ? n : 1;
    const strikes = t.luck.chance(owner, `stop:${id}`, 1 - (1 - p) ** trials);
    if (!strikes) return [];
    const left = Math.floor(t.luck.uniform(owner, `stop:${id}`) * place.cycleLeft);
    return [{ cause, left, entry: undefined }];
  });
}

/** At one instant: what counts cycles or running first, then clocks, then planned stops; then by order in the list. */
export function strikeOrder({ causes }: Machine, cause: number): number {
  const kind = causes[cause]?.trigger.kind;
  return cause + causes.length * (kind === 'at' ? 2 : kind === 'clock' ? 1 : 0);
}

export function planStrikes(t: Table, place: Place): void {
  for (const strike of place.strikes) {
    strike.entry = planIn(t, strike.left, [STOP, place.at, strikeOrder(place.machine, strike.cause)], () =>
      beginStop(t, place, strike.cause),
    );
  }
}

/** Stops at given times; those at which it does not stand in the loop are skipped, and so is one at this instant. */
export function planStopsAfter(t: Table, place: Place, after: number): void {
  const { machine } = place;
  for (const [cause, { trigger }] of machine.causes.entries()) {
    if (trigger.kind !== 'at') continue;
    for (const time of trigger.times.map(ticks).filter((time) => time > after)) {
      machine.planned.push(
        t.agenda.plan({
          time,
          rank: STOP,
          position: place.at,
          order: strikeOrder(machine, cause),
          happen: () => beginStop(t, place, cause),
        }),
      );
    }
  }
}

export function cancelPlannedStops(t: Table, machine: Machine): void {
  for (const entry of machine.planned) t.agenda.cancel(entry);
  machine.planned = [];
}

/** A stop begins; one that falls into another is skipped. */
export function beginStop(t: Table, place: Place, index: number): void {
  const { machine } = place;
  const cause = machine.causes[index];
  if (isStopped(place) || !cause) return;
  interrupt(t, place);
  place.strikes = place.strikes.filter((strike) => strike.cause !== index);
  const stop = {
    cause,
    since: t.now,
    noticed: false,
    notice: undefined,
    clearing: undefined,
    outlasts: undefined,
  };
  place.stop = stop;
  refreshClocks(t, place);
  wind(t, machine, index);
  if (t.books.open) machine.tally.stops++;
  dropBalls(t, place, cause.drops, `drops:${cause.id}`);
  planTheEnd(t, place);
  considerPulling(t, place);
}

function dropBalls(t: Table, place: Place, chance: number, purpose: string): void {
  const dropped = place.hand.filter(() => t.luck.chance(place.machine.owner, purpose, chance));
  place.hand = place.hand.filter((ball) => !dropped.includes(ball));
  count(t, place, 'dropped', dropped.length);
  fall(t, dropped);
}

function planTheEnd(t: Table, place: Place): void {
  const { stop, machine } = place;
  if (!stop) return;
  const { id, remedy } = stop.cause;
  if (remedy.kind === 'itself') {
    const lasts = drawTicks(t, machine.owner, `itself:${id}`, remedy.time);
    stop.clearing = planIn(t, lasts, [CLEARED, place.at, 0], () => runAgain(t, place));
  } else {
    const unseen = drawTicks(t, machine.owner, `notice:${id}`, remedy.notice);
    stop.notice = planIn(t, unseen, [NOTICED, place.at, 0], () => notice(t, place));
  }
}

/** A stop is noticed, and a minder asked for: to clear it, or to pull the module if it is wanted out. */
function notice(t: Table, place: Place): void {
  if (!place.wantedOut) askFor(t, 'clear', place);
  else if (!t.crew.queue.some((job) => job.kind === 'swap' && job.place === place)) askFor(t, 'swap', place);
  becomeKnown(t, place);
}

/** From now on the place is known to be stopped. */
export function becomeKnown(t: Table, place: Place): void {
  if (place.stop) {
    place.stop.noticed = true;
    t.agenda.cancel(place.stop.notice);
  }
  place.known = true;
  reviewLevers(t, place);
}

/** A minder who is there walks and clears: both times drawn now. */
export function walkAndClear(t: Table, place: Place): void {
  const { stop, machine } = place;
  if (stop?.cause.remedy.kind !== 'crew') return;
  const { id, remedy } = stop.cause;
  const walk = drawTicks(t, machine.owner, `walk:${id}`, remedy.walk);
  const clear = drawTicks(t, machine.owner, `clear:${id}`, remedy.clear);
  stop.clearing = planIn(t, walk + clear, [CLEARED, place.at, 0], () => runAgain(t, place));
}

/** The stop is cleared, by a minder or by itself: the module goes on where it was interrupted. */
function runAgain(t: Table, place: Place): void {
  endOfStop(t, place);
  if (place.doing === 'in a cycle' || place.doing === 'before the first pick') goOn(t, place);
  else refreshClocks(t, place);
  if (place.doing === 'held up' && mayLetGo(t, place)) letGo(t, place);
  startIfItCan(t, place);
  roomMayHaveAppeared(t, place);
  reviewLevers(t, place);
}

/** What ends with a stop, however it ends. Levers follow when the place runs again. */
export function endOfStop(t: Table, place: Place): void {
  const { stop } = place;
  if (stop?.cause.remedy.kind === 'crew' && t.books.open) {
    t.books.cleared.count++;
    t.books.cleared.sum += t.now - stop.since;
  }
  t.agenda.cancel(stop?.outlasts);
  place.stop = undefined;
  place.newcomer = undefined;
  setFree(t, place.attendedBy);
  place.attendedBy = undefined;
  place.backlog = place.basket.length > place.machine.basket.capacity / 2;
  place.known = false;
}
