import { describe, expect, it } from 'vitest';
import { EventQueue, runUntil } from '../../../packages/sim-core/src/kernel/index.js';

describe('runUntil', () => {
  it('takes events up to and at the end, leaves later ones pending and sets the clock to the end', () => {
    const queue = new EventQueue();
    const timers = [0, 1, 2].map((position) => queue.addTimer(position));
    for (const [i, timer] of timers.entries()) queue.schedule(timer, 5 * (i + 1), 0);
    const seen: number[] = [];
    expect(runUntil(queue, 10, () => seen.push(queue.now))).toBe(2);
    expect(seen).toEqual([5, 10]);
    expect([queue.now, queue.size]).toEqual([10, 1]);
    expect(runUntil(queue, 20, () => seen.push(queue.now))).toBe(1);
    expect([queue.now, queue.size]).toEqual([20, 0]);
  });

  it('refuses an end that is past, infinite or not a number', () => {
    const queue = new EventQueue(3);
    for (const end of [2, Infinity, NaN])
      expect(() => runUntil(queue, end, () => undefined)).toThrow(/end is/);
  });
});
