import { describe, expect, it } from 'vitest';
import type { LoopSpec, ModuleSpec } from '../../packages/sim-core/src/index.js';
import { chain, holds, lasting, loop, module, plannedStop, seconds } from '../build.js';
import { onRunOut } from './books.js';
import { noLuck } from './luck.js';
import { playPlainly } from './plainLoop.js';
import { isStopped, type Place, type Table } from './table.js';

/*
 * The second simulation on its own: small stories worked out by hand from the rules of the model.
 */

/** Moments at which something about the table has become true. */
function watch(spec: LoopSpec, look: (t: Table) => unknown): { times: unknown[][]; table: Table } {
  const times: unknown[][] = [];
  let last = '';
  const table = playPlainly(spec, noLuck(), (t) => {
    const seen = look(t);
    if (JSON.stringify(seen) !== last) times.push([t.now / 1e9, seen]);
    last = JSON.stringify(seen);
  });
  return { times, table };
}

const place = (t: Table, m: number): Place => t.places[m] as Place;

const backsUp = (capacity: number, run: number): ModuleSpec['basket'] => ({
  capacity,
  order: 'fifo',
  whenFull: { kind: 'back_up', holds: run },
});

const minders = (count: number, changes: Partial<LoopSpec['crew']> = {}): LoopSpec['crew'] => ({
  duty: [{ fromSeconds: 0, minders: count }],
  rule: 'first_come',
  ...changes,
});

describe('a full basket', () => {
  it('with nothing in between holds up the mechanism before it (blocking after service)', () => {
    // a lifts a ball in 1 s, b without a basket in 3 s. Balls come at 0, 1, 2, ... b lifts from 1 to 4, 4 to 7, 7 to 10; a is
    // done with its next ball at 2, 5 and 8, and held up until b has let go.
    const spec = chain([module('a'), module('b', { basket: backsUp(0, 0), cycle: seconds(3) })], 1, {
      show: lasting(10.5),
    });
    const { times, table } = watch(spec, (t) => place(t, 0).doing === 'held up');
    expect(times).toEqual([
      [0, false],
      [2, true],
      [4, false],
      [5, true],
      [7, false],
      [8, true],
      [10, false],
    ]);
    expect([table.left, table.books.passes]).toEqual([3, 3]);
    expect(place(table, 0).home.tally.heldUp / 1e9).toBeCloseTo(6, 9);
  });

  it('lets as many balls wait on the run-out as it holds, travelling or not', () => {
    // b is stopped from the opening on. Balls let go at 1, 2 and 3 travel 1 s: one into the basket, two wait; the next, done at
    // 4, cannot be let go.
    const spec = chain(
      [
        module('a', { travel: seconds(1) }),
        module('b', { basket: backsUp(1, 2), stops: [plannedStop([0], 1000)] }),
      ],
      1,
      { show: lasting(6.5) },
    );
    const { table } = watch(spec, () => 0);
    expect([place(table, 1).basket.length, onRunOut(place(table, 0)), place(table, 0).doing]).toEqual([
      1,
      2,
      'held up',
    ]);
  });

  it('returns what it cannot take over the chute, and spills it where there is no room either', () => {
    // Five balls at 0 into a basket of 2: three go down the chute to b, which has room for 1 and gets them at 4.
    const spec = chain(
      [
        module('a', {
          basket: { capacity: 2, order: 'fifo', whenFull: { kind: 'return', to: 1, time: seconds(4) } },
          cycle: seconds(100),
        }),
        module('b', { basket: holds(1), cycle: seconds(100) }),
      ],
      1,
      { supply: { kind: 'feed', balls: 5, every: seconds(1000), first: 0 }, show: lasting(10) },
    );
    const { times, table } = watch(spec, (t) => [t.places[0]?.overflow.length, t.floor.length]);
    expect(times).toEqual([
      [0, [0, 0]],
      [0, [1, 0]],
      [4, [0, 2]],
    ]);
    expect(table.books.places[1]?.spillsOnInflow).toBe(2);
  });

  it('locks a loop in which every basket is full and every mechanism holds a ball', () => {
    // One ball goes round a basket of 1; another is put in from the box at 0, when the first is in the mechanism. At 1 there
    // is no room for the first.
    const spec = loop([module('a', { basket: backsUp(1, 0) })], [1], {
      show: lasting(5),
      crew: minders(0, { topUp: { below: 2, upTo: 2, box: 1, into: 0, takes: seconds(0) } }),
    });
    const { table } = watch(spec, () => 0);
    expect([table.lockedAt, table.lockedPlaces]).toEqual([1e9, [0]]);
  });
});

describe('stops', () => {
  it('of a clock count public time, but not while it is stopped', () => {
    const spec = chain(
      [
        module('a', {
          stops: [plannedStop([], 5, { trigger: { kind: 'clock', time: seconds(10) } })],
        }),
      ],
      1000,
      { show: lasting(45) },
    );
    expect(watch(spec, (t) => isStopped(place(t, 0))).times).toEqual([
      [0, false],
      [10, true],
      [15, false],
      [25, true],
      [30, false],
      [40, true],
      [45, false],
    ]);
  });

  it('of running time that end with a cycle strike at the beginning of the next', () => {
    const spec = chain(
      [
        module('a', {
          cycle: seconds(2),
          stops: [plannedStop([], 1, { trigger: { kind: 'running', time: seconds(4) } })],
        }),
      ],
      3,
      { show: lasting(8) },
    );
    // Runs 0 to 2 and 3 to 5: 4 s are over at the end of a cycle; the next one begins at 6.
    expect(watch(spec, (t) => isStopped(place(t, 0))).times).toEqual([
      [0, false],
      [6, true],
      [7, false],
    ]);
  });
});

describe('pulling', () => {
  const pulled = (pull: Partial<NonNullable<ModuleSpec['pull']>>, stops: ModuleSpec['stops']): ModuleSpec =>
    module('a', {
      stops,
      pull: { stops: { moreThan: 0, withinSeconds: 60 }, spares: [], swap: seconds(2), ...pull },
    });

  it('puts a plain chute in the place of a module, and the module back when it is mended', () => {
    // Stops at 5; the swap lasts to 7. Mended at 17, put back from 17 to 19.
    const spec = chain([pulled({ chute: seconds(1), mend: seconds(10) }, [plannedStop([5], 100)])], 1000, {
      show: lasting(30),
    });
    const { times, table } = watch(spec, (t) => [place(t, 0).machine.id, isStopped(place(t, 0))]);
    expect(times).toEqual([
      [0, ['a', false]],
      [5, ['a', true]],
      [7, ['plain chute', false]],
      [17, ['plain chute', true]],
      [19, ['a', false]],
    ]);
    expect(table.books.busyArea / 1e9).toBeCloseTo(4, 9);
  });

  it('mends at night', () => {
    // Out at 7; the first session ends at 10 and the next opens 90 s later by the clock. Ready while closed: put back from 10.
    const spec = chain([pulled({ chute: seconds(1), mend: seconds(10) }, [plannedStop([5], 100)])], 1000, {
      show: {
        ...lasting(30),
        sessions: [
          { fromSeconds: 0, clockSeconds: 0 },
          { fromSeconds: 10, clockSeconds: 100 },
        ],
      },
    });
    expect(watch(spec, (t) => place(t, 0).machine.id).times).toEqual([
      [0, 'a'],
      [7, 'plain chute'],
      [12, 'a'],
    ]);
  });

  it('takes the spare of the list that is free, and clears where there is none', () => {
    const crewStop = plannedStop([5], 0, {
      remedy: { kind: 'crew', notice: seconds(1), walk: seconds(1), clear: seconds(10) },
    });
    // Both stop at 5 and are noticed at 6; two minders: one puts the spare in for a until 8, the other clears b until 17.
    const spec = chain(
      [pulled({ spares: [0] }, [crewStop]), { ...pulled({ spares: [0] }, [crewStop]), id: 'b' }],
      1000,
      { show: lasting(30), crew: minders(2), spares: [module('s')] },
    );
    expect(watch(spec, (t) => t.places.map((at) => [at.machine.id, isStopped(at)])).times).toEqual([
      [
        0,
        [
          ['a', false],
          ['b', false],
        ],
      ],
      [
        5,
        [
          ['a', true],
          ['b', false],
        ],
      ],
      [
        5,
        [
          ['a', true],
          ['b', true],
        ],
      ],
      [
        8,
        [
          ['s', false],
          ['b', true],
        ],
      ],
      [
        17,
        [
          ['s', false],
          ['b', false],
        ],
      ],
    ]);
  });

  it('breaks off a clearing that lasts too long', () => {
    // Stopped at 5, noticed at 6, being cleared from 6 on; at 15 it has lasted 10 s: the minder begins to swap, until 17.
    const stop = plannedStop([5], 0, {
      remedy: { kind: 'crew', notice: seconds(1), walk: seconds(0), clear: seconds(100) },
    });
    const rule = { swap: seconds(2), spares: [], chute: seconds(1), outlastsSeconds: 10 };
    const spec = chain([module('a', { stops: [stop], pull: rule })], 1000, { show: lasting(30) });
    expect(watch(spec, (t) => [place(t, 0).machine.id, t.crew.busy.length]).times).toEqual([
      [0, ['a', 0]],
      [6, ['a', 1]],
      [17, ['plain chute', 0]],
    ]);
  });
});

describe('levers', () => {
  it('send balls back while a watched module is known to be stopped', () => {
    // b stops at 2.5, noticed at 3.5, cleared at 13.5. The lever needs 2 s of the other minder: set from 5.5 to 15.5. a lets a
    // ball go at 1, 2, ...: those of 6 to 15 go back, and each is in the basket again after half a second.
    const stop = plannedStop([2.5], 0, {
      remedy: { kind: 'crew', notice: seconds(1), walk: seconds(0), clear: seconds(10) },
    });
    const spec = chain(
      [
        module('a', { lever: { watches: [1], takes: seconds(2), time: seconds(0.5) } }),
        module('b', { stops: [stop] }),
      ],
      1,
      { show: lasting(17.25), crew: minders(2) },
    );
    const { times, table } = watch(spec, (t) => place(t, 0).leverSet);
    expect(times).toEqual([
      [0, false],
      [5.5, true],
      [15.5, false],
    ]);
    expect([table.books.places[0]?.sentBack, table.books.places[0]?.handedOn]).toEqual([10, 7]);
  });
});

describe('topping up', () => {
  it('is asked for at the opening, and after a minute again when there was no room', () => {
    // Two balls in a basket of 2, one of them lifted at 0 for 1000 s. Below 5: a minder comes at once and after 3 s puts in the one
    // ball there is room for; the next try comes 60 s later and takes 3 s as well.
    const spec = loop([module('a', { basket: holds(2), cycle: seconds(1000) })], [2], {
      show: lasting(100),
      crew: minders(1, { topUp: { below: 5, upTo: 6, box: 9, into: 0, takes: seconds(3) } }),
    });
    const { times, table } = watch(spec, (t) => [t.box, t.crew.busy.length]);
    expect(times).toEqual([
      [0, [9, 1]],
      [3, [8, 0]],
      [63, [8, 1]],
      [66, [8, 0]],
    ]);
    expect(table.books.toppedUp).toBe(1);
  });
});
