import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LoopSpec, type LoopView, simulate } from '../../packages/sim-core/src/index.js';
import { insist } from './insist.js';
import { randomLoop } from './randomLoops.js';

/** Runs are repeatable: fast-check draws its loops from this seed, and prints the loop that breaks a law. */
const RUNS = { seed: 4711, numRuns: 250 };

describe('whatever the loop', () => {
  it('no ball appears or vanishes, after any event', () => {
    fc.assert(
      fc.property(randomLoop, fc.nat(1000), (spec, replication) => {
        // audit counts the balls in every place after every event and throws when they do not add up.
        simulate(spec, { seed: 1, replication, audit: true });
      }),
      RUNS,
    );
  });

  it('the clock never goes back and stays within the show', () => {
    fc.assert(
      fc.property(randomLoop, (spec) => {
        let last = 0;
        simulate(spec, {
          seed: 1,
          observe: ({ now }) => {
            insist(now >= last, () => `the clock goes back from ${last} to ${now}`);
            last = now;
          },
        });
        expect(last).toBeLessThanOrEqual(spec.show.seconds);
      }),
      RUNS,
    );
  });

  it('baskets and run-outs keep first in, first out', () => {
    fc.assert(
      fc.property(randomLoop, (spec) => {
        const before = new Map<string, number[]>();
        simulate(spec, {
          seed: 1,
          observe: (view) => {
            for (let m = 0; m < view.modules; m++) {
              const fifo = spec.modules[m]?.basket.order === 'fifo' && spec.modules[m]?.catch === 1;
              if (fifo) expectQueue(before, `basket ${m}`, view.ballsIn('basket', m));
              expectQueue(before, `run-out ${m}`, view.ballsIn('run_out', m));
            }
          },
        });
      }),
      { ...RUNS, numRuns: 80 },
    );
  });

  it('shares are those that an onlooker with a stopwatch would find, and add to one', () => {
    fc.assert(
      fc.property(randomLoop, (spec) => {
        const watch = stopwatch(spec);
        const result = simulate(spec, { seed: 1, observe: watch.observe });
        for (const [m, module] of spec.modules.entries()) {
          const stopped = watch.share(m, 'stopped');
          expect(result.modules.stoppedShare[m]).toBeCloseTo(stopped, 9);
          for (const column of [result.modules.starvedShare, result.modules.stoppedShare]) {
            const share = column[m] ?? NaN;
            // NaN: there was no cycle, or no unstopped time, to take a share of.
            expect(Number.isNaN(share) || (share >= 0 && share <= 1 + 1e-9)).toBe(true);
          }
          if (
            module.drive.kind === 'demand' &&
            module.catch === 1 &&
            module.stops.every(({ drops }) => drops === 0)
          ) {
            // Then the mechanism holds balls exactly while it cycles, and waits otherwise.
            const waiting = watch.share(m, 'empty');
            const cycling = watch.share(m, 'holding');
            expect(waiting + cycling + stopped).toBeCloseTo(1, 9);
            if (stopped < 1 - 1e-9)
              expect(result.modules.starvedShare[m]).toBeCloseTo(waiting / (1 - stopped), 9);
          }
          expect(result.modules.levelMean[m]).toBeCloseTo(watch.meanLevel(m), 6);
        }
      }),
      { ...RUNS, numRuns: 150 },
    );
  });

  it('the same seed and replication give the same bytes', () => {
    fc.assert(
      fc.property(randomLoop, (spec) => {
        const once = JSON.stringify(simulate(spec, { seed: 5, replication: 3 }));
        expect(JSON.stringify(simulate(spec, { seed: 5, replication: 3 }))).toBe(once);
      }),
      { ...RUNS, numRuns: 100 },
    );
  });

  it('taking a module out or moving it leaves the cycles of every other module as they were', () => {
    fc.assert(
      fc.property(randomLoop, fc.nat(), fc.nat(), (spec, a, b) => {
        fc.pre(spec.modules.length > 1);
        const index = a % spec.modules.length;
        const gone = spec.modules[index]?.id ?? '';
        const rest = spec.modules.filter(({ id }) => id !== gone);
        const to = b % spec.modules.length;
        const moved = [...rest.slice(0, to), ...spec.modules.slice(index, index + 1), ...rest.slice(to)];
        const original = cycleTimes(spec);
        for (const other of [reordered(spec, rest), reordered(spec, moved)]) {
          const times = cycleTimes(other);
          for (const { id } of other.modules) {
            const now = times.get(id) ?? [];
            const then = (original.get(id) ?? []).slice(0, now.length);
            expect(now.slice(0, then.length)).toEqual(then);
          }
        }
      }),
      { ...RUNS, numRuns: 100 },
    );
  });
});

/** A list that may only lose balls at the front and gain them at the back. */
function expectQueue(before: Map<string, number[]>, name: string, now: number[]): void {
  const old = before.get(name) ?? [];
  before.set(name, now);
  const first = now[0];
  const kept = first === undefined ? old.length : old.indexOf(first);
  // -1: everything that was there has gone.
  const staying = kept === -1 ? [] : old.slice(kept);
  for (const [i, ball] of staying.entries())
    insist(now[i] === ball, () => `${name}: ball ${ball} was at ${i}, now ${now.join()}`);
}

type Watched = 'stopped' | 'holding' | 'empty';

/** Measures from outside, between events, how long each module is stopped, holds balls, or neither. */
function stopwatch(spec: LoopSpec): {
  readonly observe: (view: LoopView) => void;
  readonly share: (m: number, what: Watched) => number;
  readonly meanLevel: (m: number) => number;
} {
  const { seconds, warmUpSeconds } = spec.show;
  const placed = spec.supply.kind === 'charge' ? spec.supply.placed : spec.modules.map(() => 0);
  const state = spec.modules.map((_, m) => ({ stopped: false, held: 0, level: placed[m] ?? 0 }));
  const time = spec.modules.map(() => ({ stopped: 0, holding: 0, empty: 0, level: 0 }));
  let from = 0;
  const book = (until: number): void => {
    const span = Math.max(0, until - Math.max(from, warmUpSeconds));
    for (const [m, { stopped, held, level }] of state.entries()) {
      const sums = time[m];
      if (!sums) continue;
      sums[stopped ? 'stopped' : held > 0 ? 'holding' : 'empty'] += span;
      sums.level += level * span;
    }
    from = until;
  };
  let done = false;
  const finish = (): void => {
    if (!done) book(seconds);
    done = true;
  };
  return {
    observe: (view) => {
      book(view.now);
      for (const [m, module] of state.entries()) {
        module.stopped = view.stopped(m);
        module.held = view.held(m);
        module.level = view.level(m);
      }
    },
    share: (m, what) => {
      finish();
      return (time[m]?.[what] ?? NaN) / (seconds - warmUpSeconds);
    },
    meanLevel: (m) => {
      finish();
      return (time[m]?.level ?? NaN) / (seconds - warmUpSeconds);
    },
  };
}

/** The loop with other modules in another order and never a stop, so that cycle times can be read off from outside. */
function reordered(spec: LoopSpec, modules: LoopSpec['modules']): LoopSpec {
  const calm = modules.map((module) => ({ ...module, stops: [], drive: { kind: 'continuous' as const } }));
  const placed = modules.map(({ basket }) => Math.min(5, basket.capacity));
  return {
    ...spec,
    modules: calm,
    supply: { kind: 'charge', placed },
    counter: 0,
    crew: { duty: [{ fromSeconds: 0, minders: 0 }], rule: 'first_come' },
  };
}

/** Times between the cycle ends of each module of the loop without stops; the last module's luck must not depend on its place. */
function cycleTimes(spec: LoopSpec): Map<string, number[]> {
  const calm = reordered(spec, spec.modules);
  const ends = new Map<string, number[]>(calm.modules.map(({ id }) => [id, []]));
  simulate(calm, {
    seed: 9,
    observe: ({ now, module, eventClass }) => {
      if (eventClass === 2) ends.get(calm.modules[module]?.id ?? '')?.push(now);
    },
  });
  return ends;
}
