import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EventQueue } from '../../../packages/sim-core/src/kernel/index.js';

/** Takes everything off a queue: [time, class, timer] in order. */
function drain(queue: EventQueue): [number, number, number][] {
  const taken: [number, number, number][] = [];
  for (let timer = queue.next(); timer >= 0; timer = queue.next())
    taken.push([queue.now, queue.eventClass, timer]);
  return taken;
}

describe('EventQueue', () => {
  it('orders events by time, then class, then position, then timer number', () => {
    const queue = new EventQueue();
    const far = queue.addTimer(9);
    const near = queue.addTimer(2);
    const twin = queue.addTimer(2);
    queue.schedule(twin, 5, 1);
    queue.schedule(near, 5, 1);
    queue.schedule(far, 5, 0);
    expect(drain(queue)).toEqual([
      [5, 0, far],
      [5, 1, near],
      [5, 1, twin],
    ]);
  });

  it('refuses NaN, infinite and past times and says what it wants', () => {
    const queue = new EventQueue(10);
    const timer = queue.addTimer(0);
    for (const time of [NaN, Infinity, -Infinity, 9.999]) {
      expect(() => queue.schedule(timer, time, 0)).toThrow(
        /time is .* but must be a finite number from 10 \(now\) on/,
      );
    }
    expect(queue.size).toBe(0);
    queue.schedule(timer, 10, 0);
    expect(queue.next()).toBe(timer);
  });

  it('refuses timers that were never made, classes and positions that are not whole', () => {
    const queue = new EventQueue();
    expect(() => queue.schedule(0, 1, 0)).toThrow(/timer is 0/);
    const timer = queue.addTimer(0);
    for (const eventClass of [-1, 0.5, NaN, 2 ** 20]) {
      expect(() => queue.schedule(timer, 1, eventClass)).toThrow(/eventClass/);
    }
    for (const position of [-1, 0.5, NaN, 2 ** 32])
      expect(() => queue.addTimer(position)).toThrow(/position/);
    expect(() => queue.cancel(1)).toThrow(/timer is 1/);
    expect(() => queue.timeOf(NaN)).toThrow(/timer is NaN/);
    expect(() => new EventQueue(NaN)).toThrow(/start/);
  });

  it('tells the class of a pending event', () => {
    const queue = new EventQueue();
    const timer = queue.addTimer(2 ** 32 - 1);
    expect(queue.classOf(timer)).toBe(-1);
    queue.schedule(timer, 3, 2 ** 20 - 1);
    expect(queue.classOf(timer)).toBe(2 ** 20 - 1);
    queue.next();
    expect(queue.classOf(timer)).toBe(-1);
    expect(() => queue.classOf(7)).toThrow(/timer is 7/);
  });

  it('cancels, and tells whether there was anything to cancel', () => {
    const queue = new EventQueue();
    const a = queue.addTimer(0);
    const b = queue.addTimer(1);
    queue.schedule(a, 1, 0);
    queue.schedule(b, 2, 0);
    expect(queue.cancel(a)).toBe(true);
    expect(queue.cancel(a)).toBe(false);
    expect(queue.timeOf(a)).toBe(Infinity);
    expect(drain(queue)).toEqual([[2, 0, b]]);
    expect(queue.peek()).toBe(Infinity);
  });

  it('starts over after reset', () => {
    const queue = new EventQueue();
    const timer = queue.addTimer(0);
    queue.schedule(timer, 3, 0);
    queue.next();
    queue.schedule(timer, 8, 0);
    queue.reset(1);
    expect([queue.now, queue.size, queue.next()]).toEqual([1, 0, -1]);
    queue.schedule(timer, 1, 4);
    expect(drain(queue)).toEqual([[1, 4, timer]]);
  });

  it('equals a stable sort, whatever is scheduled, moved, cancelled and taken in between', () => {
    const step = fc.oneof(
      {
        weight: 5,
        arbitrary: fc.record({
          do: fc.constant('schedule'),
          timer: fc.nat(149),
          wait: fc.nat(6),
          cls: fc.nat(3),
        }),
      },
      { weight: 1, arbitrary: fc.record({ do: fc.constant('cancel'), timer: fc.nat(149) }) },
      { weight: 3, arbitrary: fc.record({ do: fc.constant('next') }) },
    );
    fc.assert(
      fc.property(
        fc.array(fc.nat(20), { minLength: 1, maxLength: 150 }),
        fc.array(step, { maxLength: 400 }),
        (positions, steps) => {
          const queue = new EventQueue();
          for (const position of positions) queue.addTimer(position);
          const pending = new Map<number, { time: number; cls: number }>();
          const soonest = (): number[] =>
            [...pending]
              .map(([timer, { time, cls }]) => [time, cls, positions[timer] ?? 0, timer])
              .sort((x, y) => x.reduce((order, value, i) => order || value - (y[i] ?? 0), 0))[0] ?? [];
          for (const s of steps) {
            const timer = 'timer' in s ? s.timer % positions.length : 0;
            if (s.do === 'schedule' && 'wait' in s) {
              const time = queue.now + s.wait;
              queue.schedule(timer, time, s.cls);
              pending.set(timer, { time, cls: s.cls });
            } else if (s.do === 'cancel') {
              expect(queue.cancel(timer)).toBe(pending.delete(timer));
            } else {
              const [time, cls, , expected = -1] = soonest();
              expect(queue.peek()).toBe(time ?? Infinity);
              const before = queue.now;
              expect(queue.next()).toBe(expected);
              if (expected >= 0) {
                expect([queue.now, queue.eventClass]).toEqual([time, cls]);
                pending.delete(expected);
              }
              expect(queue.now).toBeGreaterThanOrEqual(before);
            }
            expect(queue.size).toBe(pending.size);
          }
        },
      ),
      { seed: 20250101, numRuns: 300 },
    );
  });
});
