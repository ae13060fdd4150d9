import { expect, it } from 'vitest';
import { LimitError } from '../../../packages/sim-core/src/errors/index.js';
import { Progress } from '../../../packages/sim-core/src/model/progress.js';

/** Counts so many events one by one, the i-th at a moment. */
function counted(events: number, at: (i: number) => number): Progress {
  const progress = new Progress();
  for (let i = 0; i < events; i++) progress.count(1, at(i));
  return progress;
}

it('lets a million things happen at one instant, and stops a show whose time stands still', () => {
  expect(counted(2 ** 20, () => 5).events).toBe(2 ** 20);
  expect(() => counted(2 ** 21, () => 5)).toThrow(LimitError);
  expect(() => counted(2 ** 21, () => 5)).toThrow(
    /^5 s into the show more than 1048576 things happen at one instant/,
  );
  // It went on for an hour, and then no more.
  expect(() => counted(2 ** 23, (i) => Math.min(i, 3600))).toThrow(/^1 h into the show more than/);
});

it('goes on while time does, whoever is ahead of whom', () => {
  expect(counted(2 ** 22, (i) => i / 1000).events).toBe(2 ** 22);
  expect(counted(2 ** 22, (i) => (i % 2 === 0 ? 1e6 : 0) + i / 1000).events).toBe(2 ** 22);
});

it('ends a show of too many events', () => {
  const progress = new Progress();
  progress.count(2e9, 7200);
  expect(() => progress.count(1e9, 10_800)).toThrow(/^3 h into the show there have been 2000000000 events/);
});
