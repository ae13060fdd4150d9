import { LimitError } from '../errors/index.js';
import { formatSeconds } from '../units/index.js';
import { MOST_EVENTS } from './spec/index.js';

/** How often it is checked that time goes on. */
const EVENTS_BETWEEN_CHECKS = 2 ** 20;

/** Counts the events of one replication, and sees to it that they come to an end. */
export class Progress {
  events = 0;
  private nextCheck: number = EVENTS_BETWEEN_CHECKS;
  private checkedAt = -1;

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
    const when = `${formatSeconds(now)} into the show`;
    if (now === this.checkedAt)
      throw new LimitError(
        `${when} more than ${EVENTS_BETWEEN_CHECKS} things happen at one instant; give the cycles, ways and stops there a length`,
      );
    if (this.events > MOST_EVENTS)
      throw new LimitError(
        `${when} there have been ${MOST_EVENTS} events; shorten the show, or make what happens rarer`,
      );
    this.nextCheck += EVENTS_BETWEEN_CHECKS;
    this.checkedAt = now;
  }
}
