import { describe, expect, it } from 'vitest';
import {
  type Incident,
  type LoopSpec,
  type ModuleSpec,
  simulate,
} from '../../../packages/sim-core/src/index.js';
import { chain, holds, lasting, module, plannedStop, seconds } from '../../build.js';

/*
 * Two stories of a chain of three with one stop, one pull and one lever, worked out with pencil and paper, tick by tick,
 * from the rules of the model. Balls are called 0, 1, 2, ... in the order in which they come from the feed. No number here
 * comes from a run.
 */

interface Told {
  /** Every line of the log: time, what, where, and the rest of it. */
  readonly log: [time: number, kind: string, place: string, rest: string][];
  /** When balls fell into the tray. */
  readonly tray: number[];
  /** Balls in basket and mechanism of each module after the last event of each instant. */
  readonly at: Map<number, number[][][]>;
  /** What module 0 was doing after each event: times at which it was held up. */
  readonly heldUp: number[];
}

function tell(spec: LoopSpec): Told {
  const told: Told = { log: [], tray: [], at: new Map(), heldUp: [] };
  const rest = (incident: Incident): string =>
    Object.entries(incident)
      .filter(([key]) => !['time', 'kind', 'module'].includes(key))
      .map(([key, value]) => `${key} ${value}`)
      .join(', ');
  // The simulator gives the numbers of balls that are gone to new ones; here each has a name of its own.
  const names = new Map<number, number>();
  let entered = 0;
  simulate(spec, {
    seed: 1,
    audit: true,
    log: (incident) =>
      told.log.push([incident.time, incident.kind, spec.modules[incident.module]?.id ?? '', rest(incident)]),
    observe: (view) => {
      if (view.entered > entered) {
        const newest = view.ballsIn('basket', 0).at(-1) ?? view.ballsIn('mechanism', 0).at(-1) ?? NaN;
        names.set(newest, entered++);
      }
      while (told.tray.length < view.left) told.tray.push(view.now);
      if (view.doing(0) === 'held_up') told.heldUp.push(view.now);
      told.at.set(
        view.now,
        spec.modules.map((_, m) =>
          (['basket', 'mechanism'] as const).map((place) =>
            view.ballsIn(place, m).map((ball) => names.get(ball) ?? NaN),
          ),
        ),
      );
    },
  });
  return told;
}

const slow = (id: string, cycle: number, changes: Partial<ModuleSpec> = {}): ModuleSpec =>
  module(id, { cycle: seconds(cycle), travel: seconds(0.5), basket: holds(10), ...changes });

describe('a stop that lasts too long, a spare, and a lever that keeps the crowd away', () => {
  /*
   * A ball every 2 s from 0 on. Ball k is picked by a at 2k and by b at 2k + 1.5, reaches c at 2k + 3 and the tray at
   * 2k + 4.5, as long as all is well. c stops at 9.5 in the middle of lifting ball 3.
   */
  const spec = chain(
    [
      slow('a', 1),
      slow('b', 1, { lever: { watches: [2], takes: seconds(1), time: seconds(0.5) } }),
      slow('c', 1, {
        basket: holds(2),
        stops: [
          plannedStop([9.5], 0, {
            remedy: { kind: 'crew', notice: seconds(1), walk: seconds(0), clear: seconds(20) },
          }),
        ],
        pull: { outlastsSeconds: 3, spares: [0], swap: seconds(2), mend: seconds(10) },
      }),
    ],
    2,
    {
      show: lasting(30),
      spares: [slow('spare', 1.5, { basket: holds(2) })],
      crew: { duty: [{ fromSeconds: 0, minders: 2 }], rule: 'first_come' },
    },
  );
  const told = tell(spec);

  it('runs by the log', () => {
    expect(told.log).toEqual([
      [0, 'duty', '', 'what 2'],
      [9.5, 'stops', 'c', 'cause planned, balls 0'],
      // Noticed 1 s later: one minder goes to clear it, which would take until 30.5; the other to the lever of b.
      [10.5, 'noticed', 'c', ''],
      [10.5, 'sets_out', 'c', 'minder 1, what clear'],
      [10.5, 'sets_out', 'b', 'minder 2, what set the lever'],
      [11.5, 'lever_back', 'b', 'minder 2'],
      // 3 s after it began the stop has lasted too long; the minder who is at it fetches the spare.
      [12.5, 'wanted_out', 'c', ''],
      [12.5, 'sets_out', 'c', 'minder 1, what swap it for spare'],
      [14.5, 'pulled', 'c', 'minder 1, seconds 5, what spare'],
      [14.5, 'sets_out', 'b', 'minder 1, what set the lever'],
      [15.5, 'lever_forward', 'b', 'minder 1'],
      // Mended 10 s after it was out; while it is put back the place stands still, and b's lever is set once more.
      [24.5, 'mended', 'c', ''],
      [24.5, 'sets_out', 'c', 'minder 1, what put it back'],
      [24.5, 'sets_out', 'b', 'minder 2, what set the lever'],
      [25.5, 'lever_back', 'b', 'minder 2'],
      // The spare held ball 9 and two more in its basket; c's basket takes two of the three.
      [26.5, 'put_back', 'c', 'minder 1, seconds 2, what spare'],
      [26.5, 'spills', 'c', 'balls 1'],
      [26.5, 'sets_out', 'b', 'minder 1, what set the lever'],
      [27.5, 'lever_forward', 'b', 'minder 1'],
    ]);
  });

  it('passes the balls on at these times', () => {
    // 0, 1, 2; then through the spare 3, 4, 5, 7, 6, 8 every 1.5 s; then through c again 9, 10, 12. Ball 11 fell.
    expect(told.tray).toEqual([4.5, 6.5, 8.5, 16.5, 18, 19.5, 21, 22.5, 24, 28, 29, 30]);
  });

  it('keeps balls where they should be', () => {
    const basket = (time: number, m: number): number[] | undefined => told.at.get(time)?.[m]?.[0];
    const mechanism = (time: number, m: number): number[] | undefined => told.at.get(time)?.[m]?.[1];
    // Ball 4 was let go just before the lever was set and waits before c; ball 5 came back to b at 13 and is lifted again.
    expect([basket(11, 2), mechanism(11, 2)]).toEqual([[4], [3]]);
    expect([basket(13, 1), mechanism(13, 1)]).toEqual([[], [5]]);
    expect([basket(13.5, 1), mechanism(13.5, 1)]).toEqual([[6], [5]]);
    expect([basket(14, 1), mechanism(14, 1)]).toEqual([[], [6]]);
    // At 14.5 ball 5 is back in b's basket, and the spare begins with the ball that c had in hand.
    expect([basket(14.5, 1), basket(14.5, 2), mechanism(14.5, 2)]).toEqual([[5], [4], [3]]);
    // At 15.5 ball 7 comes from a and ball 6 back from b itself: the run-out of a goes first.
    expect(basket(15.5, 1)).toEqual([7, 6]);
    expect([basket(18.5, 2), mechanism(18.5, 2)]).toEqual([[7, 6], [5]]);
    expect([basket(25.5, 2), mechanism(25.5, 2)]).toEqual([[10, 11], [9]]);
    expect([basket(26.5, 2), mechanism(26.5, 2)]).toEqual([[10], [9]]);
  });

  it('is measured so', () => {
    const { modules, spares, crew } = simulate(spec, { seed: 1 });
    // c: 14.5 s in the loop until it is out, stopped 5 of them; back from 26.5 to 30.
    expect(modules.pulledShare[2]).toBeCloseTo(12 / 30, 12);
    expect(modules.stoppedShare[2]).toBeCloseTo(5 / 30, 12);
    expect([modules.stops[2], modules.pulls[2], modules.spillsWhileStopped[2]]).toEqual([1, 1, 1]);
    // Waiting: 0 to 3, 4 to 5, 6 to 7, 8 to 9, and nothing after 26.5; of 18 - 5 unstopped seconds in the loop.
    expect(modules.starvedShare[2]).toBeCloseTo(6 / 13, 12);
    expect(spares.inUseShare[0]).toBeCloseTo(12 / 30, 12);
    expect(spares.stoppedShare[0]).toBeCloseTo(2 / 30, 12);
    // Ball 5 at 12.5 and 14, ball 6 at 15, ball 12 at 26.5.
    expect(modules.recirculated[1]).toBe(4);
    // Clearing 2 s and swapping 2 s, lever 1 s; lever 1 s; swapping 2 s, lever 1 s; lever 1 s.
    expect(crew.busySeconds).toBeCloseTo(4 + 1 + 1 + 2 + 1 + 1, 12);
    expect([crew.clearCount, crew.clearMeanSeconds]).toEqual([1, 5]);
  });
});

describe('one stop too many, a plain chute, and a basket that backs up', () => {
  /*
   * A ball every 2 s from 0 on; x lifts it in 1 s and drops it straight into the basket of y, which holds one ball and
   * holds up x when it is full; y needs 4 s. y stops at 6 and would free itself at 7, but one stop is one too many.
   */
  const spec = chain(
    [
      slow('x', 1, {
        travel: seconds(0),
        lever: { watches: [1], takes: seconds(0), time: seconds(1) },
      }),
      slow('y', 4, {
        travel: seconds(1),
        basket: { capacity: 1, order: 'fifo', whenFull: { kind: 'back_up', holds: 0 } },
        stops: [plannedStop([6], 1)],
        pull: { stops: { moreThan: 0, withinSeconds: 60 }, spares: [], chute: seconds(2), swap: seconds(5) },
      }),
      slow('z', 1, { travel: seconds(1) }),
    ],
    2,
    { show: lasting(15.5) },
  );
  const told = tell(spec);

  it('runs by the log', () => {
    expect(told.log).toEqual([
      [0, 'duty', '', 'what 1'],
      [6, 'stops', 'y', 'cause planned, balls 0'],
      [6, 'wanted_out', 'y', ''],
      // The minder is free and begins at once; from now on it is known that y stands still.
      [6, 'sets_out', 'y', 'minder 1, what swap it for plain chute'],
      [6, 'lever_back', 'x', ''],
      // y had ball 1 in hand and ball 2 in its basket, which holds one; the other falls.
      [11, 'pulled', 'y', 'minder 1, seconds 5, what plain chute'],
      [11, 'spills', 'y', 'balls 1'],
      [11, 'lever_forward', 'x', ''],
    ]);
  });

  it('moves the balls so', () => {
    const places = (time: number): number[][][] | undefined => told.at.get(time)?.slice(0, 2);
    // x, then y: basket and mechanism.
    expect(places(1)).toEqual([
      [[], []],
      [[], [0]],
    ]);
    expect(places(3)).toEqual([
      [[], []],
      [[1], [0]],
    ]);
    // At 5 x has lifted ball 2 and finds y's basket full; in the same instant y picks ball 1, and x lets go.
    expect(told.heldUp).toEqual([5]);
    expect(places(5)).toEqual([
      [[], []],
      [[2], [1]],
    ]);
    // Ball 3 goes back at 7 and arrives at 8, behind ball 4, which comes from the feed and is picked first.
    expect(places(8)).toEqual([
      [[3], [4]],
      [[2], [1]],
    ]);
    expect(places(10)).toEqual([
      [[4], [5]],
      [[2], [1]],
    ]);
    // At 11 ball 3 is back once more, ball 5 on its way back, and ball 1 is down the chute at once.
    expect(places(11)).toEqual([
      [[3], [4]],
      [[], []],
    ]);
    // From now on what x drops runs through: ball 4 at 12, ball 3 at 13, ball 6 at 14.
    expect(places(12)).toEqual([
      [[6, 5], [3]],
      [[], []],
    ]);
    expect(places(13)).toEqual([
      [[5], [6]],
      [[], []],
    ]);
    expect(places(14)).toEqual([
      [[7], [5]],
      [[], []],
    ]);
    // Ball 0 left y at 5 and z at 7; ball 1 is 2 s on the chute, so z has it at 13 and lets it go at 14.
    expect(told.tray).toEqual([8, 15]);
    const z = (time: number): number[][] | undefined => told.at.get(time)?.[2];
    expect([z(13), z(14), z(15)]).toEqual([
      [[], [1]],
      [[], [4]],
      [[], [3]],
    ]);
  });

  it('is measured so', () => {
    const { modules } = simulate(spec, { seed: 1 });
    expect([modules.pulls[1], modules.stops[1], modules.spillsWhileStopped[1]]).toEqual([1, 1, 1]);
    // Out from 11 to the end. Stopped from 6 to 11.
    expect(modules.pulledShare[1]).toBeCloseTo(4.5 / 15.5, 12);
    expect(modules.stoppedShare[1]).toBeCloseTo(5 / 15.5, 12);
    // Ball 3 at 7, 4 at 9, 3 at 10, 5 at 11.
    expect(modules.recirculated[0]).toBe(4);
    expect(modules.heldUpShare[0]).toBe(0);
  });
});
