import { HANDS, LEVER_SET } from './agenda.js';
import { askFor, type Job, setFree, withdraw } from './crew.js';
import { isNothing } from './luck.js';
import { letGo } from './mechanism.js';
import { drawTicks, isStopped, type Place, planIn, type Table } from './table.js';

/*
 * MODEL.md, "Levers".
 */

const hasLever = (place: Place): boolean => place.spec.lever !== undefined && place.machine === place.home;

/** While any of the watched places is known to be stopped the lever should be set. */
const shouldBeSet = (t: Table, place: Place): boolean =>
  (place.spec.lever?.watches ?? []).some((watched) => t.places[watched]?.known);

/**
 * It has become known that a place is stopped, or that it runs again, perhaps with its module and its lever back: the
 * levers that watch it, then its own.
 */
export function reviewLevers(t: Table, changed: Place): void {
  const watching = t.places.filter(({ spec }) => spec.lever?.watches.includes(changed.at));
  for (const place of watching) reviewLever(t, place);
  if (!watching.includes(changed)) reviewLever(t, changed);
}

function reviewLever(t: Table, place: Place): void {
  const { lever } = place.spec;
  if (!lever || !hasLever(place)) return;
  const change = shouldBeSet(t, place) !== place.leverSet;
  if (isNothing(lever.takes)) setLever(t, place);
  else if (change) place.leverJob ??= askFor(t, 'lever', place);
  else withdrawLeverJob(t, place);
}

/** A request that has become pointless is withdrawn while it waits. */
function withdrawLeverJob(t: Table, place: Place): void {
  if (!place.leverJob || !t.crew.queue.includes(place.leverJob)) return;
  withdraw(t, place.leverJob);
  place.leverJob = undefined;
}

export function beginToSetLever(t: Table, place: Place, job: Job): void {
  const { lever } = place.spec;
  if (!lever) return;
  planIn(t, drawTicks(t, place.home.owner, 'lever', lever.takes), [HANDS, place.at, LEVER_SET], () => {
    setFree(t, job);
    place.leverJob = undefined;
    if (hasLever(place)) setLever(t, place);
  });
}

/** The lever stands as it should at this moment; a mechanism that is held up lets go at once when it is set. */
function setLever(t: Table, place: Place): void {
  if (place.leverSet === shouldBeSet(t, place)) return;
  place.leverSet = !place.leverSet;
  if (place.leverSet && place.doing === 'held up' && !isStopped(place)) letGo(t, place);
}

/** A lever goes with its module: while that is out there is none. */
export function leverGoesOut(t: Table, place: Place): void {
  place.leverSet = false;
  withdrawLeverJob(t, place);
}
