import { LimitError } from '../errors/index.js';
import { formatSeconds } from '../units/index.js';
import { MOST_EVENTS } from './spec/index.js';

/** More events than this at one instant, and time does not go on. */
const EVENTS_AT_ONE_INSTANT = 2 ** 20;

/** Counts the events of one replication, and sees to it that they come to an end. */
export class Progress {
  events = 0;
  /** Checks come after 1, 2, 4, 8 events and so on: when the engine compiles what counts, it has seen some. */
  private nextCheck = 1;
  /** The moment that checks have found since so many events. */
  private moment: number = -Infinity;
  private momentFrom = 0;

  /**
   * So many events have happened, the last of them now.
   *
   * @throws LimitError when there are too many, in all or at one instant
   */
  count(events: number, now: number): void {
    this.events += events;
    if (this.events >= this.nextCheck) this.check(now);
  }

  private check(now: number): void {
    const { events } = this;
    const when = (): string => `${formatSeconds(now)} into the show`;
    // Not "later than": a place that runs ahead may be at a later time than the one that comes after it.
    if (now !== this.moment) {
      this.moment = now;
      this.momentFrom = events;
    } else if (events - this.momentFrom >= EVENTS_AT_ONE_INSTANT) {
      throw new LimitError(
        `${when()} more than ${EVENTS_AT_ONE_INSTANT} things happen at one instant; give the cycles, ways and stops there a length`,
      );
    }
    if (events > MOST_EVENTS)
      throw new LimitError(
        `${when()} there have been ${MOST_EVENTS} events; shorten the show, or make what happens rarer`,
      );
    this.nextCheck = events + Math.min(events, EVENTS_AT_ONE_INSTANT);
  }
}
