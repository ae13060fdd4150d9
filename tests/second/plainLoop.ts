import type { ChargeSpec, FeedSpec, LoopSpec } from '../../packages/sim-core/src/model/spec/index.js';
import { CYCLE_END, DELIVERY, type Entry, HANDS, SAMPLE } from './agenda.js';
import { deliver, room } from './basket.js';
import { letTimePass, newBooks, newTally, onPath } from './books.js';
import { refreshClocks } from './clocks.js';
import { takeUpJobs } from './crew.js';
import { noteLock } from './lock.js';
import type { Luck } from './luck.js';
import { goOn, startIfItCan } from './mechanism.js';
import { planStopsAfter } from './stops.js';
import { planSweeps } from './sweeping.js';
import { askForTopUp } from './toppingUp.js';
import { emptyTable, drawTicks, newBall, planIn, type Table, ticks } from './table.js';

/*
 * A second simulation of the rules in MODEL.md: slow, plain, one list of events in order of time, one object for each
 * ball, module and place. It shares nothing with the simulator but the types of a spec, and exists to disagree with it.
 */

/**
 * Plays one whole show.
 *
 * @param luck where all that is left to chance comes from
 * @param look called at the opening (without an event) and after each event
 * @returns the table at the end of the show, with its books
 */
export function playPlainly(
  spec: LoopSpec,
  luck: Luck,
  look: (t: Table, event: Entry | undefined) => void = () => undefined,
): Table {
  const t = emptyTable(spec, luck);
  open(t);
  askForTopUp(t);
  takeUpJobs(t);
  look(t, undefined);
  const ballsAtOpening = ballsAnywhere(t);
  for (let event = t.agenda.next(t.end); event; event = t.agenda.next(t.end)) {
    letTimePass(t, event.time);
    event.happen();
    askForTopUp(t);
    takeUpJobs(t);
    noteLock(t);
    look(t, event);
  }
  letTimePass(t, t.end);
  if (ballsAnywhere(t) !== ballsAtOpening + t.entered) throw new Error('a ball has appeared or vanished');
  return t;
}

function open(t: Table): void {
  const { spec } = t;
  if (ticks(spec.show.warmUpSeconds) === 0) t.books.open = true;
  else planIn(t, ticks(spec.show.warmUpSeconds), [SAMPLE, 0, 0], () => beginToMeasure(t));
  if (spec.supply.kind === 'charge') placeCharge(t, spec.supply);
  else planFeed(t, spec.supply, spec.supply.first);
  for (const { fromSeconds, minders } of spec.crew.duty.slice(1)) {
    planIn(t, ticks(fromSeconds), [HANDS, Infinity, 0], () => {
      t.crew.onDuty = minders;
    });
  }
  planSweeps(t);
  for (const place of t.places) {
    const { machine } = place;
    planStopsAfter(t, place, -1);
    if (machine.drive.kind === 'continuous') {
      place.doing = 'before the first pick';
      place.cycleLeft = ticks(t.luck.phase(machine.owner, machine.cycle));
      goOn(t, place);
    } else {
      refreshClocks(t, place);
      planIn(t, 0, [CYCLE_END, place.at, 0], () => startIfItCan(t, place));
    }
  }
}

/** By hand, round the baskets: one ball into each that is to have another. */
function placeCharge(t: Table, { placed }: ChargeSpec): void {
  for (let round = 1; round <= Math.max(...placed); round++) {
    for (const place of t.places) {
      if ((placed[place.at] ?? 0) < round) continue;
      if (room(place) === 0) throw new Error(`the charge does not fit into basket ${place.at}`);
      place.basket.push(newBall());
    }
  }
}

function planFeed(t: Table, feed: FeedSpec, first?: number): void {
  const wait = first === undefined ? drawTicks(t, null, 'feed', feed.every) : ticks(first);
  planIn(t, wait, [DELIVERY, -1, 0], () => {
    const balls = Array.from({ length: feed.balls }, () => ({ ...newBall(), passedAt: t.now }));
    t.entered += balls.length;
    if (t.books.open) t.books.entered += balls.length;
    const head = t.places[0];
    if (head) deliver(t, head, balls);
    planFeed(t, feed);
  });
}

/** The end of the warm-up: all books begin anew. */
function beginToMeasure(t: Table): void {
  Object.assign(t.books, newBooks(t.places.length), { open: true, from: t.now });
  const chutes = t.places.flatMap(({ chute }) => chute ?? []);
  for (const { tally } of [...t.places.map(({ home }) => home), ...t.spares, ...chutes])
    Object.assign(tally, newTally());
}

const ballsAnywhere = (t: Table): number => onPath(t) + t.floor.length + t.lost + t.left + t.box;
