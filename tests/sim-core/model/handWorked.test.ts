import { describe, expect, it } from 'vitest';
import {
  LimitError,
  type LoopSpec,
  type LoopView,
  simulate,
  type StopCauseSpec,
} from '../../../packages/sim-core/src/index.js';
import { CLEARED, STOP } from '../../../packages/sim-core/src/model/eventClass.js';
import { chain, holds, lasting, loop, module, plannedStop, seconds } from '../../build.js';

/*
 * Small stories with constant times, worked out by hand from the rules of the model; no number here comes from a run.
 */

/** Times at which something about the table became true, seen after every event. */
function watch(
  spec: LoopSpec,
  look: (view: LoopView) => unknown,
): { times: [number, unknown][]; result: ReturnType<typeof simulate> } {
  const times: [number, unknown][] = [];
  let last: unknown;
  const result = simulate(spec, {
    seed: 1,
    audit: true,
    observe: (view) => {
      const seen = look(view);
      if (JSON.stringify(seen) !== JSON.stringify(last)) times.push([view.now, seen]);
      last = seen;
    },
  });
  return { times, result };
}

/** Times of the events of one class at one module. */
function timesOf(spec: LoopSpec, eventClass: number, m: number): number[] {
  const times: number[] = [];
  simulate(spec, {
    seed: 1,
    audit: true,
    observe: (view) => {
      if (view.eventClass === eventClass && view.module === m) times.push(view.now);
    },
  });
  return times;
}

describe('one module on demand', () => {
  it('takes a ball at once, cycles, and hands it on after the travel time', () => {
    // A ball every 4 s from 0 on; cycle 1.5 s; travel 2 s: each is through after 3.5 s. Balls of 0, 4, ..., 96 get out by 100.
    const { result } = watch(
      chain([module('a', { cycle: seconds(1.5), travel: seconds(2) })], 4, { show: lasting(100) }),
      () => 0,
    );
    expect(result.laps.mean).toBeCloseTo(3.5, 12);
    expect(result.laps.sd).toBeCloseTo(0, 9);
    expect([result.entered, result.left, result.passes]).toEqual([26, 25, 25]);
    // Waiting 2.5 s of every 4; the 26th ball came at the very end.
    expect(result.modules.starvedShare[0]).toBeCloseTo(2.5 / 4, 12);
  });

  it('with start_at gathers balls first and then takes a batch', () => {
    // Balls at 0, 1, 2, ...; the third makes it start at 2; the cycle lasts 10 s, so it starts again at 12 with 10 waiting.
    const spec = chain(
      [module('a', { drive: { kind: 'demand', startAt: 3 }, batch: 4, cycle: seconds(10) })],
      1,
      { show: lasting(13) },
    );
    const { times } = watch(spec, (view) => view.held(0));
    expect(times).toEqual([
      [0, 0],
      [2, 3],
      [12, 4],
    ]);
  });

  it('goes on with an interrupted cycle where it was', () => {
    // One ball at 0, cycle 4 s; stopped from 1 to 6: three seconds are left, so the ball is out at 9.
    const spec = chain([module('a', { cycle: seconds(4), stops: [plannedStop([1], 5)] })], 1000, {
      show: lasting(20),
    });
    const { times, result } = watch(spec, (view) => [view.stopped(0), view.left]);
    expect(times).toEqual([
      [0, [false, 0]],
      [1, [true, 0]],
      [6, [false, 0]],
      [9, [false, 1]],
    ]);
    expect(result.modules.stoppedShare[0]).toBeCloseTo(5 / 20, 12);
    // Waiting from 9 to 20, in 15 unstopped seconds.
    expect(result.modules.starvedShare[0]).toBeCloseTo(11 / 15, 12);
  });

  it('stopped while it waits does not start, and starts at once when cleared', () => {
    // Balls at 0 and 10. Stopped from 8 to 13: the ball of 10 is picked at 13.
    const spec = chain([module('a', { cycle: seconds(2), stops: [plannedStop([8], 5)] })], 10, {
      show: lasting(16),
    });
    const { times } = watch(spec, (view) => [view.level(0), view.held(0)]);
    expect(times).toEqual([
      [0, [0, 1]],
      [2, [0, 0]],
      [10, [1, 0]],
      [13, [0, 1]],
      [15, [0, 0]],
    ]);
  });

  it('takes no notice of a planned stop while it is stopped', () => {
    const spec = chain([module('a', { stops: [plannedStop([1, 3], 5)] })], 100, { show: lasting(20) });
    expect(timesOf(spec, CLEARED, 0)).toEqual([6]);
  });

  it('lets the balls in the mechanism fall when a stop drops them, and ends the cycle empty', () => {
    const spec = chain(
      [module('a', { cycle: seconds(4), stops: [plannedStop([1], 5, { drops: 1 })] })],
      1000,
      { show: lasting(20) },
    );
    const { times, result } = watch(spec, (view) => [view.held(0), view.floor, view.left]);
    expect(times).toEqual([
      [0, [1, 0, 0]],
      [1, [0, 1, 0]],
    ]);
    expect(result.modules.dropped[0]).toBe(1);
  });
});

describe('clocks of running time', () => {
  const clock = (mean: number, lasts: number, crowded?: { above: number; times: number }) => ({
    id: 'wear',
    trigger: { kind: 'running' as const, time: seconds(mean) },
    ...(crowded && { crowded }),
    drops: 0,
    remedy: { kind: 'itself' as const, time: seconds(lasts) },
  });

  it('count only time in a cycle: not waiting, not stopped', () => {
    // A ball every 10 s, cycle 4 s; the clock stops it after every 10 s of running.
    // Running 0-4, 10-14, 20-24: 10 s are over at 22. Stopped to 25; the cycle ends at 27. Then 27-... : 2 s done at 27,
    // 30-34, 40-44: 10 s are over at 44, the very end of the cycle: the end comes first, the stop with the next cycle at 50.
    const spec = chain([module('a', { cycle: seconds(4), stops: [clock(10, 3)] })], 10, {
      show: lasting(52),
    });
    expect(timesOf(spec, STOP, 0)).toEqual([22, 50]);
    expect(timesOf(spec, CLEARED, 0)).toEqual([25]);
  });

  it('run faster from the moment the basket is crowded, in the middle of a cycle', () => {
    // Balls at 0, 1, 2, ... The one of 0 is being lifted for 100 s. Basket of 4, crowded above half: from t = 3 on, with 3
    // balls. By then 3 of 10 s are used; the other 7 at fourfold speed last 1.75 s.
    const spec = chain(
      [
        module('a', {
          basket: holds(4),
          cycle: seconds(100),
          stops: [clock(10, 50, { above: 0.5, times: 4 })],
        }),
      ],
      1,
      {
        show: lasting(10),
      },
    );
    expect(timesOf(spec, STOP, 0)).toEqual([4.75]);
  });
});

describe('triggers at the pick', () => {
  it('are certain when crowding makes them so, and impossible when their chance is zero', () => {
    const cause = (probability: number, times: number) => ({
      id: 'jam',
      trigger: { kind: 'per_cycle' as const, probability },
      crowded: { above: 0.5, times },
      drops: 0,
      remedy: { kind: 'itself' as const, time: seconds(1) },
    });
    // 10 balls at once into a basket of 10; one is lifted a second; chance 0.5 doubled is 1 while more than 5 wait at the pick:
    // at 10, 9, 8, 7 and 6 balls. With the basket calm the chance is half, so exactly five stops are certain.
    const spec = (probability: number, times: number): LoopSpec =>
      chain([module('a', { basket: holds(10), stops: [cause(probability, times)] })], 1, {
        supply: { kind: 'feed', balls: 10, every: seconds(1e6), first: 0 },
        show: lasting(1000),
      });
    const crowdedOnly = simulate(spec(1e-300, 1e300), { seed: 1 });
    expect(crowdedOnly.modules.stops[0]).toBe(5);
    expect(simulate(spec(0, 10_000), { seed: 1 }).modules.stops[0]).toBe(0);
  });
});

describe('a full basket', () => {
  it('takes what fits, spills the rest, and books spills by what was going on', () => {
    // Balls at 0, 1, 2, ...; basket of 4, cycle 1 s. The ball of 0 is lifted; at 0.5 the module stops, to 10.5: the balls of 1
    // to 4 fill the basket, those of 5 to 10 spill while it is stopped. Half a second is left of the cycle: from 11 on one
    // goes out and one comes in each second. At 11 the ball comes first (deliveries before ends of cycle): it spills on the
    // backlog. Then the pick at 11 makes room for the ball of 12, and so on: the basket stays at 3 to 4, above half, for ever.
    const spec = chain([module('a', { basket: holds(4), stops: [plannedStop([0.5], 10)] })], 1, {
      show: lasting(20.5),
    });
    const { result } = watch(spec, () => 0);
    expect(result.modules.spillsWhileStopped[0]).toBe(6);
    expect(result.modules.spillsOnBacklog[0]).toBe(1);
    expect(result.modules.spillsOnInflow[0]).toBe(0);
    expect(result.firstSpill).toBe(5);
  });

  it('spills on inflow when more comes than the module can take', () => {
    // Bursts of 5 every 10 s into a basket of 3 that holds none at that time: 2 spill each time (the batch is offered first).
    const spec = chain([module('a', { basket: holds(3) })], 1, {
      supply: { kind: 'feed', balls: 5, every: seconds(10), first: 0 },
      show: lasting(95),
    });
    const { result } = watch(spec, () => 0);
    expect(result.modules.spillsOnInflow[0]).toBe(20);
    expect(result.modules.levelPeak[0]).toBe(3);
    expect(result.hours).toBe(0);
  });
});

describe('at the same instant', () => {
  it('a stop is cleared before a ball comes: what spills then is backlog', () => {
    // As in the story of the full basket, but stopped from 0.5 to 10: the balls of 5 to 9 spill while it is stopped, that of
    // 10 comes when it is just cleared. The cycle has half a second left: a pick at 10.5, room for the ball of 11, and so on.
    const spec = chain([module('a', { basket: holds(4), stops: [plannedStop([0.5], 9.5)] })], 1, {
      show: lasting(20.4),
    });
    const { result } = watch(spec, () => 0);
    expect(result.modules.spillsWhileStopped[0]).toBe(5);
    expect(result.modules.spillsOnBacklog[0]).toBe(1);
  });

  it('a cycle ends, and the next one picks, before a stop begins', () => {
    // Balls at 0, 1, 2, ...; cycle 2 s; the stop of 2 s finds the next ball in the mechanism, with its whole cycle to go.
    const spec = chain([module('a', { cycle: seconds(2), stops: [plannedStop([2], 3)] })], 1, {
      show: lasting(7.5),
    });
    const { times } = watch(spec, (view) => [view.stopped(0), view.held(0), view.left]);
    expect(times).toEqual([
      [0, [false, 1, 0]],
      // At 2 the first ball is let go and the second picked; a ball that travels no time arrives before the stop begins.
      [2, [false, 1, 1]],
      [2, [true, 1, 1]],
      [5, [false, 1, 1]],
      [7, [false, 1, 2]],
    ]);
  });
});

describe('laps', () => {
  it('are the time between two releases at the counter, and broken ones are counted apart', () => {
    // One ball, two modules with cycles of 2 and 3 s and travels of 4 and 5 s: 14 s a lap. Released at the counter at 2, 16,
    // 30, ...: 100 s hold the releases 2, 16, ..., 100 and so 7 laps.
    const spec = loop(
      [
        module('a', { cycle: seconds(2), travel: seconds(4) }),
        module('b', { cycle: seconds(3), travel: seconds(5) }),
      ],
      [1, 0],
      {
        show: lasting(100),
      },
    );
    const { result } = watch(spec, () => 0);
    expect([result.passes, result.laps.count, result.laps.broken]).toEqual([8, 7, 0]);
    expect(result.laps.mean).toBeCloseTo(14, 12);
  });

  it('leave out a ball that lay on the floor until it has passed the counter again', () => {
    // The same, but b drops the ball when it stops at 7 (it lifts from 6 to 9); a sweep at 20 puts it into a's basket.
    // Released at 2 (first), at 22 (broken lap), then every 14 s: 36, 50, ...
    const spec = loop(
      [
        module('a', { cycle: seconds(2), travel: seconds(4) }),
        module('b', { cycle: seconds(3), travel: seconds(5), stops: [plannedStop([7], 1, { drops: 1 })] }),
      ],
      [1, 0],
      {
        show: lasting(51),
        crew: {
          duty: [{ fromSeconds: 0, minders: 0 }],
          rule: 'first_come',
          sweep: { everySeconds: 20, into: 0, takes: seconds(0), lost: 0 },
        },
      },
    );
    const { result } = watch(spec, () => 0);
    expect([result.passes, result.laps.count, result.laps.broken]).toEqual([4, 2, 1]);
    expect(result.laps.mean).toBeCloseTo(14, 12);
  });
});

describe('the crew', () => {
  const crewStop = (times: readonly number[], notice = 0, walk = 0, clear = 10) => ({
    id: 'planned',
    trigger: { kind: 'at' as const, times },
    drops: 0,
    remedy: { kind: 'crew' as const, notice: seconds(notice), walk: seconds(walk), clear: seconds(clear) },
  });
  const three = (placed: readonly number[], changes: Partial<LoopSpec>): LoopSpec =>
    loop(
      ['a', 'b', 'c'].map((id, m) =>
        module(id, { basket: holds(10), cycle: seconds(500), stops: [crewStop([1 + m])] }),
      ),
      placed,
      { show: lasting(100), ...changes },
    );
  const clearings = (spec: LoopSpec): number[][] => [0, 1, 2].map((m) => timesOf(spec, CLEARED, m));

  it('notices, walks and clears in that order', () => {
    const spec = chain([module('a', { stops: [crewStop([5], 3, 4, 10)] })], 1, { show: lasting(50) });
    const { times, result } = watch(spec, (view) => [view.stopped(0), view.busyMinders]);
    expect(times).toEqual([
      [0, [false, 0]],
      [5, [true, 0]],
      [8, [true, 1]],
      [22, [false, 0]],
    ]);
    expect(result.crew.clearMeanSeconds).toBeCloseTo(17, 12);
    expect(result.crew.busySeconds / result.crew.dutySeconds).toBeCloseTo(14 / 50, 12);
  });

  it('serves first come first served, one at a time', () => {
    // Stops at 1, 2, 3; one minder, 10 s each.
    expect(clearings(three([2, 2, 2], {}))).toEqual([[11], [21], [31]]);
  });

  it('serves in the order of noticing, also when a stop is noticed at once', () => {
    // a stops at 10 and is noticed at 20; b stops at 20 and is noticed at once. At 20 a's place in the loop comes first.
    const spec = loop(
      [
        module('a', { basket: holds(10), cycle: seconds(500), stops: [crewStop([10], 10)] }),
        module('b', { basket: holds(10), cycle: seconds(500), stops: [crewStop([20], 0)] }),
      ],
      [1, 1],
      { show: lasting(100) },
    );
    expect([0, 1].map((m) => timesOf(spec, CLEARED, m))).toEqual([[30], [40]]);
  });

  it('is busy at most all of its time on duty, also when the last job takes longer', () => {
    // On duty from 0 to 20; the job begun at 5 ends at 45.
    const spec = loop(
      [module('a', { basket: holds(10), cycle: seconds(500), stops: [crewStop([5], 0, 0, 40)] })],
      [1],
      {
        show: lasting(100),
        crew: {
          duty: [
            { fromSeconds: 0, minders: 1 },
            { fromSeconds: 20, minders: 0 },
          ],
          rule: 'first_come',
        },
      },
    );
    const { result } = watch(spec, () => 0);
    expect([result.crew.busySeconds, result.crew.dutySeconds]).toEqual([15, 20]);
  });

  it('with two minders serves two at a time', () => {
    expect(
      clearings(three([2, 2, 2], { crew: { duty: [{ fromSeconds: 0, minders: 2 }], rule: 'first_come' } })),
    ).toEqual([[11], [12], [21]]);
  });

  it('with fullest first goes where the basket is fullest', () => {
    // When the minder is free at 11, b holds 2 - 1 of 10 and c holds 9 - 1 of 10: c goes first.
    expect(
      clearings(
        three([2, 2, 9], { crew: { duty: [{ fromSeconds: 0, minders: 1 }], rule: 'fullest_first' } }),
      ),
    ).toEqual([[11], [31], [21]]);
  });

  it('comes and goes by its shifts, and finishes the job it is at', () => {
    // Nobody until 20; one minder from 20 to 25 takes the first job and finishes it at 30; the next one comes at 60.
    const duty = [
      { fromSeconds: 0, minders: 0 },
      { fromSeconds: 20, minders: 1 },
      { fromSeconds: 25, minders: 0 },
      { fromSeconds: 60, minders: 1 },
    ];
    expect(clearings(three([2, 2, 2], { crew: { duty, rule: 'first_come' } }))).toEqual([[30], [70], [80]]);
  });

  it('sweeps when a sweep needs a minder, as one job among others', () => {
    // Ten balls at once into a basket of 4: 6 on the floor at 0. A sweep is due at 10; the minder clears a stop from 5 to 15,
    // then sweeps from 15 to 18: by then the basket has room for all it held.
    const spec = chain([module('a', { basket: holds(4) }), module('b', { stops: [crewStop([5])] })], 1, {
      supply: { kind: 'feed', balls: 10, every: seconds(1e6), first: 0 },
      show: lasting(19),
      crew: {
        duty: [{ fromSeconds: 0, minders: 1 }],
        rule: 'first_come',
        sweep: { everySeconds: 10, into: 0, takes: seconds(3), lost: 0 },
      },
    });
    const { times } = watch(spec, (view) => [view.floor, view.busyMinders]);
    // At 15 the minder goes from the one job to the other, so that nothing changes to the eye.
    expect(times).toEqual([
      [0, [6, 0]],
      [5, [6, 1]],
      [18, [2, 0]],
    ]);
  });

  it('never finds the lost share', () => {
    const spec = chain([module('a', { basket: holds(4) })], 1, {
      supply: { kind: 'feed', balls: 10, every: seconds(1e6), first: 0 },
      show: lasting(19),
      crew: {
        duty: [{ fromSeconds: 0, minders: 0 }],
        rule: 'first_come',
        sweep: { everySeconds: 10, into: 0, takes: seconds(0), lost: 1 },
      },
    });
    const { times } = watch(spec, (view) => [view.floor, view.lost]);
    expect(times).toEqual([
      [0, [6, 0]],
      [10, [0, 6]],
    ]);
  });
});

describe('the clock', () => {
  it.each([
    [0.9, 9],
    [2.7, 27],
  ])('meets itself: a cycle of %f s and a way of %f s make a whole lap', (cycle, travel) => {
    // Ten times 0.9 is not 9 in binary numbers; a ball that comes as a cycle ends must still be caught by the next one.
    const spec = loop(
      [module('a', { drive: { kind: 'continuous' }, cycle: seconds(cycle), travel: seconds(travel) })],
      [1],
      { show: lasting(1000 * (cycle + travel)) },
    );
    const { result } = watch(spec, () => 0);
    expect(result.laps.count).toBeGreaterThan(990);
    expect(result.laps.mean).toBeCloseTo(cycle + travel, 12);
    expect(result.laps.sd).toBeCloseTo(0, 9);
  });
});

describe('the warm-up', () => {
  it('is simulated but not measured', () => {
    // A ball every 2 s from 0 on, cycle 1 s. Measured from 10 to 20: the balls that come at 10 are before the end of the
    // warm-up (samples come last), so those of 12 to 20 are counted as entered: 5; out at 11, 13, 15, 17, 19: 5.
    const spec = chain([module('a')], 2, { show: lasting(20, 10) });
    const { result } = watch(spec, () => 0);
    expect([result.measuredSeconds, result.entered, result.left]).toEqual([10, 5, 5]);
    expect(result.modules.starvedShare[0]).toBeCloseTo(0.5, 12);
    expect(result.modules.levelMean[0]).toBe(0);
  });
});

describe('a continuous drive', () => {
  it('cycles whether balls wait or not, and counts empty cycles as starved', () => {
    // Cycle 2 s, a ball every 10 s: one cycle in five lifts a ball.
    const spec = chain([module('a', { drive: { kind: 'continuous' }, cycle: seconds(2) })], 10, {
      show: lasting(10_000),
    });
    const { result } = watch(spec, () => 0);
    expect(result.modules.starvedShare[0]).toBeCloseTo(0.8, 3);
  });

  it('begins at a uniform random phase of one cycle', () => {
    const first = Array.from({ length: 2000 }, (_, replication) => {
      let time = NaN;
      simulate(
        chain([module('a', { drive: { kind: 'continuous' }, cycle: seconds(8) })], 1e6, { show: lasting(8) }),
        {
          seed: 1,
          replication,
          observe: (view) => {
            if (view.module === 0 && view.eventClass === 2 && Number.isNaN(time)) time = view.now;
          },
        },
      );
      return time;
    });
    const mean = first.reduce((sum, time) => sum + time, 0) / first.length;
    // Uniform on 0 to 8 s: mean 4, standard deviation 8 / sqrt(12).
    expect(Math.abs(mean - 4)).toBeLessThan((3 * 8) / Math.sqrt(12 * first.length));
    expect(Math.max(...first)).toBeLessThanOrEqual(8);
  });
});

describe('rare inputs', () => {
  const certain = (changes: Partial<StopCauseSpec>): StopCauseSpec => ({
    id: 'certain',
    trigger: { kind: 'per_ball', probability: 1 },
    drops: 0,
    remedy: { kind: 'itself', time: seconds(1) },
    ...changes,
  });

  it('an empty cycle has no ball to stop at', () => {
    const spec = chain(
      [module('a', { drive: { kind: 'continuous' }, cycle: seconds(1), stops: [certain({})] })],
      1000,
      { supply: { kind: 'feed', balls: 1, every: seconds(1e6), first: 500 }, show: lasting(400) },
    );
    expect([...watch(spec, () => 0).result.modules.stops]).toEqual([0]);
  });

  it('an unlimited basket is never above a share of itself', () => {
    const spec = chain(
      [
        module('a', {
          stops: [
            certain({
              trigger: { kind: 'per_cycle', probability: 0 },
              crowded: { above: 0.5, times: 1e9 },
            }),
          ],
        }),
      ],
      1,
      { show: lasting(400) },
    );
    expect([...watch(spec, () => 0).result.modules.stops]).toEqual([0]);
  });

  it('more balls than a replication can hold end it with a plain error', () => {
    const spec = chain([module('a')], 1, {
      supply: { kind: 'feed', balls: 100_000, every: seconds(2), first: 0 },
      show: lasting(3600),
    });
    expect(() => simulate(spec, { seed: 1 })).toThrow(LimitError);
  });
});
