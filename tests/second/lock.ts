import { isStopped, type Table } from './table.js';

/*
 * MODEL.md, "Locked".
 */

/** Notes the first moment at which nothing can move any more. */
export function noteLock(t: Table): void {
  if (!t.closed || t.lockedAt !== undefined) return;
  const stuck = t.places.every(
    (place) =>
      !isStopped(place) &&
      (place.doing === 'waiting' || place.doing === 'held up') &&
      place.runOut.travelling.length + place.overflow.length + place.back.length === 0,
  );
  const heldUp = t.places.filter(({ doing }) => doing === 'held up');
  if (!stuck || heldUp.length === 0) return;
  t.lockedAt = t.now;
  t.lockedPlaces = heldUp.map(({ at }) => at);
}
