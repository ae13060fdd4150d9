import { describe, expect, it } from 'vitest';
import { type LoopSpec, type ModuleSpec, orderStrain } from '../../../packages/sim-core/src/index.js';
import { exampleLoop } from '../../docs/exampleLoop.js';

const [plain] = exampleLoop.modules;

/** A module that lifts one ball in so many seconds, and may stop. */
function lift(id: string, seconds: number, more: Partial<ModuleSpec> = {}): ModuleSpec {
  return { ...plain!, id, cycle: { family: 'constant', value: seconds }, stops: [], ...more };
}

function loop(...modules: readonly ModuleSpec[]): LoopSpec {
  return { ...exampleLoop, modules, supply: { kind: 'charge', placed: modules.map(() => 20) } };
}

const small = { capacity: 30, order: 'fifo', whenFull: { kind: 'spill' } } as const;
const { stops } = plain!;

describe('the strain of an order', () => {
  it('is nothing where nothing stops', () => {
    expect(orderStrain(loop(lift('a', 0.7), lift('b', 1)))([0, 1])).toBe(0);
  });

  it('of one stopping module with an empty basket is the mean of what an exponential stop brings beyond its room', () => {
    // It stops every 600 s of running for 30 s and drains at once. Flow 0.9 of min(40 balls a lap, 1 / 1.05 bps), the
    // capacity of the stopping module at 1 ball a second. Excess of a mean b over a room c: b exp(-c / b).
    const spec = loop(lift('a', 1e-6), lift('b', 1, { stops, basket: small }));
    const flow = 0.9 / 1.05;
    const b = 30 * flow;
    const perHour = 3600 / (600 + 30);
    const drained = flow * 30;
    const standing = 0.5 + ((perHour / 3600) * drained * (30 + drained / (1 - flow))) / 2;
    const excess = (b * b * Math.exp(-30 / b) - standing ** 2 * Math.exp(-30 / standing)) / (b - standing);
    expect(orderStrain(spec)([0, 1])).toBeCloseTo(perHour * excess, 6);
  });

  it('is less where a slow module takes the surge before it comes to the one that stops', () => {
    const spec = loop(
      lift('stopping', 0.5, { stops }),
      lift('slow', 0.95),
      lift('tender', 0.98, { stops, basket: small }),
      lift('d', 0.5),
    );
    const strain = orderStrain(spec);
    expect(strain([0, 1, 2, 3])).toBeLessThan(strain([0, 2, 1, 3]));
  });

  it('is less with a lever before the module that stops, and more with lumps before it', () => {
    const lever = {
      watches: [2],
      takes: { family: 'constant', value: 0 },
      time: { family: 'constant', value: 1 },
    } as const;
    const spec = loop(
      lift('a', 0.8),
      lift('levered', 0.8, { lever }),
      lift('tender', 0.9, { stops, basket: small }),
      lift('tipper', 6, { drive: { kind: 'demand', startAt: 12 }, batch: 12 }),
    );
    const strain = orderStrain(spec);
    expect(strain([0, 1, 2, 3])).toBeLessThan(strain([1, 0, 2, 3]));
    expect(strain([3, 2, 0, 1])).toBeGreaterThan(strain([3, 0, 2, 1]));
  });
});
