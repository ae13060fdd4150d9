import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type LoopSpec,
  type ModuleSpec,
  parseScenario,
  possibilities,
  simulate,
} from '../../../packages/sim-core/src/index.js';
import { chain, holds, loop, module, plannedStop, seconds } from '../../build.js';
import { randomTable } from '../../laws/randomTables.js';
import { EVERYTHING, LOCKS } from './everything.js';

const backUp = (balls: number): ModuleSpec['basket'] => ({
  ...holds(balls),
  whenFull: { kind: 'back_up', holds: 2 },
});
const returns = (balls: number, to: number): ModuleSpec['basket'] => ({
  ...holds(balls),
  whenFull: { kind: 'return', to, time: seconds(1) },
});

/** Ids of the places at which something can happen. */
function where(spec: LoopSpec, what: 'spill' | 'heldUp' | 'pulled' | 'returned' | 'recirculated'): string {
  const { places } = possibilities(spec);
  return spec.modules.flatMap(({ id }, m) => (places[m]?.[what] === true ? [id] : [])).join(' ');
}

describe('possibilities', () => {
  it('a mechanism can be held up only by the next place, if that backs up and the run-out there has an end', () => {
    const modules = [
      module('a', { basket: backUp(5) }),
      module('b', { basket: { ...holds(5), whenFull: { kind: 'back_up', holds: Infinity } } }),
      module('c'),
    ];
    expect(where(loop(modules, [1, 1, 1]), 'heldUp')).toBe('c');
    // The last of a chain drops its balls into the tray, and a feed is no mechanism.
    expect(where(chain(modules, 1), 'heldUp')).toBe('');
    // Balls that travel count too: a short run-out can be full though the basket never is.
    expect(where(loop([module('x', { basket: backUp(Infinity) })], [1]), 'heldUp')).toBe('x');
    expect(where(chain([module('x'), module('y', { basket: backUp(5) })], 1), 'heldUp')).toBe('x');
  });

  it('a basket that backs up spills only what a feed, a chute, a lever or a swap brings', () => {
    const watched = module('b', { basket: backUp(5), stops: [plannedStop([5], 5)] });
    const swap = { outlastsSeconds: 1, spares: [], swap: seconds(1) };
    const spills = (changes: Partial<ModuleSpec>): string =>
      where(loop([module('a', { basket: backUp(5), ...changes }), watched], [1, 1]), 'spill');
    expect(spills({})).toBe('');
    expect(spills({ basket: returns(5, 1) })).toBe('b');
    expect(spills({ lever: { watches: [1], takes: seconds(0), time: seconds(0) } })).toBe('a');
    // A lever that watches a module without a stop is never set.
    expect(spills({ lever: { watches: [0], takes: seconds(0), time: seconds(0) } })).toBe('');
    // Nothing can go in: no spare, no plain chute.
    expect(spills({ stops: watched.stops, pull: swap })).toBe('');
    expect(spills({ stops: watched.stops, pull: { ...swap, chute: seconds(1) } })).toBe('a');
    expect(where(chain([module('a', { basket: backUp(5) }), watched], 1), 'spill')).toBe('a');
  });

  it('a spare brings what it can do to the place it can take', () => {
    const spare = module('spare', { basket: holds(5), leak: 0.1, stops: [plannedStop([], 1, { drops: 1 })] });
    const pull = { outlastsSeconds: 1, spares: [0], swap: seconds(1) };
    const spec = (stops: ModuleSpec['stops']): LoopSpec =>
      loop([module('a', { stops, pull })], [1], { spares: [spare] });
    expect(possibilities(spec([plannedStop([5], 5)]))).toMatchObject({
      spares: [true],
      pulled: true,
      places: [{ spill: true, stopped: true, dropped: true, leaked: true }],
    });
    // A module that never stops is never pulled.
    expect(possibilities(spec([]))).toMatchObject({
      spares: [false],
      pulled: false,
      places: [{ spill: false, stopped: false, dropped: false, leaked: false }],
    });
  });

  it('are all there where the file has everything', () => {
    expect(possibilities(parseScenario(EVERYTHING).spec)).toMatchObject({
      heldUp: true,
      pulled: true,
      chutes: true,
      locked: true,
      toppedUp: true,
      spares: [true],
    });
    expect(possibilities(parseScenario(LOCKS).spec)).toMatchObject({
      pulled: false,
      chutes: false,
      locked: true,
    });
  });

  it('are never contradicted by a show: what is ruled out does not happen in any of 300 random ones', () => {
    const seen = { heldUp: 0, pulled: 0, returned: 0, recirculated: 0, locked: 0, toppedUp: 0, spares: 0 };
    fc.assert(
      fc.property(randomTable, (spec) => {
        const can = possibilities(spec);
        const result = simulate(spec, { seed: 3 });
        const { modules, spares } = result;
        const ruledOut: Record<string, number> = {};
        const note = (name: string, possible: boolean, amount: number): void => {
          if (!possible) ruledOut[name] = (ruledOut[name] ?? 0) + amount;
        };
        for (const [m, place] of can.places.entries()) {
          const at = (column: Float64Array): number => column[m] ?? NaN;
          note('spills while stopped', place.spill && place.stopped, at(modules.spillsWhileStopped));
          note('spills on backlog', place.spill && place.stopped, at(modules.spillsOnBacklog));
          note('spills on inflow', place.spill, at(modules.spillsOnInflow));
          note('held up', place.heldUp, at(modules.heldUpShare));
          note('pulled', place.pulled, at(modules.pulledShare) + at(modules.pulls));
          note('returned', place.returned, at(modules.returned));
          note('recirculated', place.recirculated, at(modules.recirculated));
          note('dropped', place.dropped, at(modules.dropped));
          note('leaked', place.leaked, at(modules.leaks));
          seen.heldUp += at(modules.heldUpShare);
          seen.pulled += at(modules.pulls);
          seen.returned += at(modules.returned);
          seen.recirculated += at(modules.recirculated);
        }
        for (const [s, usable] of can.spares.entries()) {
          note('spares', usable, (spares.inUseShare[s] ?? NaN) + (spares.stops[s] ?? NaN));
          seen.spares += spares.inUseShare[s] ?? NaN;
        }
        note('locked', can.locked, result.locked === null ? 0 : 1);
        note('topped up', can.toppedUp, result.toppedUp);
        seen.locked += result.locked === null ? 0 : 1;
        seen.toppedUp += result.toppedUp;
        expect(Object.entries(ruledOut).filter(([, amount]) => amount !== 0)).toEqual([]);
      }),
      { seed: 7, numRuns: 300 },
    );
    // The shows are of the kind in which all of it happens.
    expect(Object.entries(seen).filter(([, amount]) => !(amount > 0))).toEqual([]);
  });
});
