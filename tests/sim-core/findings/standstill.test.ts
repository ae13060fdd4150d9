import { describe, expect, it } from 'vitest';
import { mayLock } from '../../../packages/sim-core/src/findings/index.js';
import type { LoopSpec, ModuleSpec, WhenFullSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { simulate } from '../../../packages/sim-core/src/index.js';
import { loop, module, seconds } from '../../build.js';

const backing = (id: string, changes: Partial<ModuleSpec> = {}, whenFull?: WhenFullSpec): ModuleSpec =>
  module(id, {
    basket: { capacity: 10, order: 'fifo', whenFull: whenFull ?? { kind: 'back_up', holds: 4 } },
    drive: { kind: 'continuous' },
    batch: 4,
    travel: seconds(2),
    ...changes,
  });

const boxOf = (balls: number, upTo = balls): LoopSpec['crew'] => ({
  duty: [{ fromSeconds: 0, minders: 1 }],
  rule: 'first_come',
  topUp: { below: upTo, upTo, box: balls, into: 0, takes: seconds(0) },
});

describe('a loop that backs up everywhere', () => {
  const three = ['a', 'b', 'c'].map((id) => backing(id));

  // Each place full: 10 in the basket, and more than 4 on the run-out and in the mechanism behind it. 3 x 15 = 45.
  it('can lock from the number of balls on that lets every mechanism be held up', () => {
    expect(mayLock(loop(three, [10, 10, 10]))).toBeUndefined();
    expect(mayLock(loop(three, [10, 10, 10], { crew: boxOf(60, 44) }))).toBeUndefined();
    expect(mayLock(loop(three, [10, 10, 10], { crew: boxOf(60, 45) }))).toMatch(
      /45 balls .* there may be 45/,
    );
  });

  it('can have all balls of the box on its path when those on the floor come back', () => {
    const sweep = { everySeconds: 60, into: 0, takes: seconds(0), lost: 0 };
    const crew = (box: number): LoopSpec['crew'] => ({ ...boxOf(box, 31), sweep });
    expect(mayLock(loop(three, [10, 10, 10], { crew: crew(14) }))).toBeUndefined();
    expect(mayLock(loop(three, [10, 10, 10], { crew: crew(15) }))).toMatch(/there may be 45/);
  });

  it('cannot lock when one basket spills or sends balls back, nor as a chain', () => {
    const crew = boxOf(60);
    for (const open of [{ kind: 'spill' }, { kind: 'return', to: 0, time: seconds(1) }] as const)
      expect(mayLock(loop([...three, backing('d', {}, open)], [10, 10, 10, 10], { crew }))).toBeUndefined();
    const feed = { kind: 'feed', balls: 1, every: seconds(1) } as const;
    expect(mayLock(loop(three, [], { supply: feed }))).toBeUndefined();
  });

  it('has as much room as the smallest that may stand at a place', () => {
    const pull = { outlastsSeconds: 60, spares: [0], swap: seconds(60) };
    const spares = [module('small', { basket: { capacity: 2, order: 'fifo', whenFull: { kind: 'spill' } } })];
    const pulled = ['a', 'b', 'c'].map((id) => backing(id, { pull }));
    // 3 x (2 + 4 + 1) = 21 balls.
    expect(mayLock(loop(pulled, [7, 7, 6], { spares }))).toBeUndefined();
    expect(mayLock(loop(pulled, [7, 7, 7], { spares }))).toMatch(/21 balls .* there may be 21/);
  });

  it('does lock from there on in the simulation, and not with one ball less', () => {
    const random = { family: 'lognormal', mean: 3.6, cv: 0.2 } as const;
    const leaky = three.map((one, m) => ({ ...one, cycle: random, leak: m === 0 ? 0.01 : 0 }));
    const locksWith = (balls: number): number =>
      Array.from({ length: 20 }, (_, replication) =>
        simulate(
          loop(leaky, [10, 10, 10], {
            crew: boxOf(200, balls),
            show: { seconds: 7200, warmUpSeconds: 0 },
          }),
          { seed: 1, replication },
        ),
      ).filter(({ locked }) => locked !== null).length;
    expect(locksWith(44)).toBe(0);
    expect(locksWith(48)).toBeGreaterThan(10);
  });
});
