import type { StopCauseSpec } from '../../packages/sim-core/src/model/spec/index.js';
import { STOP } from './agenda.js';
import { beginStop, strikeOrder } from './stops.js';
import { type Clock, isStopped, type Machine, type Place, type Table, ticks } from './table.js';

/*
 * MODEL.md, "Stops": clocks of `running` and `clock`, and crowding.
 */

/** More balls in the basket than this share of its capacity; a place without a basket is never crowded. */
export function isCrowded(place: Place, { crowded }: StopCauseSpec): boolean {
  const { capacity } = place.machine.basket;
  return crowded !== undefined && capacity > 0 && place.basket.length > crowded.above * capacity;
}

/** Reckons all clocks of what stands at a place anew: whether they run, how fast, and when they strike. */
export function refreshClocks(t: Table, place: Place): void {
  const { machine } = place;
  for (const [cause, spec] of machine.causes.entries()) {
    const clock = machine.clocks[cause];
    if (!clock) continue;
    settle(t, clock);
    t.agenda.cancel(clock.strike);
    clock.strike = undefined;
    clock.rate = rate(place, spec);
    if (clock.rate === 0) continue;
    if (Number.isNaN(clock.left)) wind(t, machine, cause);
    const time = t.now + Math.max(0, Math.round(clock.left / clock.rate));
    // At the end of a cycle or later: that is for the next cycle.
    if (spec.trigger.kind === 'running' && time >= (place.cycleEnd?.time ?? 0)) continue;
    clock.strike = t.agenda.plan({
      time,
      rank: STOP,
      position: place.at,
      order: strikeOrder(machine, cause),
      happen: () => beginStop(t, place, cause),
    });
  }
}

function rate(place: Place, cause: StopCauseSpec): number {
  if (isStopped(place)) return 0;
  if (cause.trigger.kind === 'clock') return 1;
  if (place.doing !== 'in a cycle') return 0;
  return isCrowded(place, cause) ? (cause.crowded?.times ?? 1) : 1;
}

function settle(t: Table, clock: Clock): void {
  clock.left -= (t.now - clock.since) * clock.rate;
  clock.since = t.now;
}

/** Draws a clock afresh. */
export function wind(t: Table, machine: Machine, cause: number): void {
  const clock = machine.clocks[cause];
  const spec = machine.causes[cause];
  if (!clock || !spec || (spec.trigger.kind !== 'running' && spec.trigger.kind !== 'clock')) return;
  clock.left = ticks(t.luck.time(machine.owner, `stop:${spec.id}`, spec.trigger.time));
  clock.since = t.now;
}

/** Its clocks stand still: it is out of the loop. */
export function standStill(t: Table, machine: Machine): void {
  for (const clock of machine.clocks) {
    if (!clock) continue;
    settle(t, clock);
    t.agenda.cancel(clock.strike);
    clock.strike = undefined;
    clock.rate = 0;
  }
}
