import { requireParameter } from '../errors/index.js';
import type { EventQueue } from './eventQueue.js';

/**
 * Takes events off the queue in order and hands each to `handle`, until the next one lies after `end` or none is
 * left; then the clock stands at `end`. An event exactly at `end` still happens.
 *
 * `handle` gets the timer that fired; `queue.now` and `queue.eventClass` say when and what. It may schedule and cancel.
 *
 * @param end time to stop at: a finite number, not before `queue.now`
 * @returns how many events happened
 * @throws ParameterError when `end` is NaN, infinite or past
 * @example
 * const queue = new EventQueue();
 * const tick = queue.addTimer(0);
 * queue.schedule(tick, 0, 0);
 * runUntil(queue, 10, (timer) => queue.schedule(timer, queue.now + 4, 0)) // => 3
 */
export function runUntil(queue: EventQueue, end: number, handle: (timer: number) => void): number {
  requireParameter(
    end >= queue.now && end < Infinity,
    'runUntil',
    'end',
    end,
    `a finite number from ${queue.now} (now) on`,
  );
  let events = 0;
  while (queue.peek() <= end) {
    handle(queue.next());
    events++;
  }
  queue.now = end;
  return events;
}
