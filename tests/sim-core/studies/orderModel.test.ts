import { describe, expect, it } from 'vitest';
import { stream } from '../../../packages/sim-core/src/random/index.js';
import { OrderModel } from '../../../packages/sim-core/src/studies/orderModel.js';

const uniform = (): (() => number) => stream({ seed: 3, replication: 0, place: null, purpose: 'x' });

describe('what orders teach', () => {
  it('is, of two orders of two modules, as by pencil and paper', () => {
    const model = new OrderModel(2, false, uniform());
    model.add({ order: [0, 1], strain: 0, round: 1, value: 5, shows: 1 });
    model.add({ order: [1, 0], strain: 0, round: 1, value: 1, shows: 1 });
    // Standardised they are +-1 / sqrt 2. Of one with itself: neighbours 1/2, sides 0.3, its own 0.1; with the other: sides
    // -0.3; what the round has in common falls out of the difference. Of the noises next to 0.3 the least, 0.1, is the most
    // likely: 1 / (1.2 + v) + ln(1.2 + v) is 1.03 for 0.1, 1.07 for 0.3 and 1.24 for 1.
    const fitted = model.fit();
    const part = Math.SQRT1_2 / (1.2 + 0.1);
    const cost = (order: readonly number[]): number => fitted?.best.cost(order, 0) ?? NaN;
    const tried = (order: readonly number[]): number => fitted?.triedCost(order, 0) ?? NaN;
    expect(cost([0, 1]) - cost([1, 0])).toBeCloseTo(2 * part * 1.1, 9);
    expect(tried([0, 1]) - tried([1, 0])).toBeCloseTo(2 * part * 1.2, 9);
  });

  it('is nothing where all come to the same, but for rounding', () => {
    const model = new OrderModel(3, true, uniform());
    model.add({ order: [0, 1, 2], strain: 0, round: 1, value: 0.1 + 0.2, shows: 2 });
    model.add({ order: [0, 2, 1], strain: 0, round: 1, value: 0.3, shows: 2 });
    expect(model.fit()).toBe(undefined);
  });

  it('does not take the luck of a round for a merit of its orders', () => {
    const model = new OrderModel(4, true, uniform());
    // b behind c costs 1 in both rounds; all shows of the second are 50 worse.
    for (const [round, luck] of [
      [1, 0],
      [2, 50],
    ] as const) {
      model.add({ order: [0, 1, 2, 3], strain: 0, round, value: luck, shows: 4 });
      model.add({
        order: round === 1 ? [0, 2, 1, 3] : [0, 3, 2, 1],
        strain: 0,
        round,
        value: luck + 1,
        shows: 4,
      });
    }
    const fitted = model.fit();
    const cost = (order: readonly number[]): number => fitted?.triedCost(order, 0) ?? NaN;
    expect(cost([0, 1, 2, 3])).toBeLessThan(cost([0, 2, 1, 3]));
    expect(cost([0, 1, 2, 3])).toBeLessThan(cost([0, 3, 2, 1]));
    // Boldness 0 is the best guess; bold ones differ from it and from each other.
    const order = [0, 1, 3, 2];
    expect(fitted?.drawn(0).cost(order, 0)).toBeCloseTo(fitted?.best.cost(order, 0) ?? NaN, 9);
    expect(fitted?.drawn(1).cost(order, 0)).not.toBeCloseTo(fitted?.drawn(1).cost(order, 0) ?? NaN, 3);
  });
});
