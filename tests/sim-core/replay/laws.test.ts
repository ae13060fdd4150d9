import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LoopView, simulate } from '../../../packages/sim-core/src/index.js';
import type { Episode } from '../../../packages/sim-core/src/replay/episode.js';
import { EpisodeRecorder } from '../../../packages/sim-core/src/replay/episodeRecorder.js';
import { replay } from '../../../packages/sim-core/src/replay/replay.js';
import { stopSpans } from '../../../packages/sim-core/src/replay/stopSpans.js';
import { randomTable } from '../../laws/randomTables.js';

const RUNS = { seed: 1618, numRuns: 250 };

const sum = (values: Iterable<number>): number => [...values].reduce((total, value) => total + value, 0);

describe('whatever the table, a replay', () => {
  it('is the show that a run simulates, and its log adds up to the same figures', () => {
    fc.assert(
      fc.property(randomTable, fc.nat(1000), (spec, replication) => {
        const plain = simulate(spec, { seed: 3, replication });
        const { result, log } = replay(spec, {
          seed: 3,
          replication,
          windows: [{ from: 0, to: spec.show.seconds }],
        });
        expect(result).toEqual(plain);
        const { warmUpSeconds } = spec.show;
        const measured = log.filter(({ time }) => warmUpSeconds === 0 || time > warmUpSeconds);
        const balls = (kind: string): number =>
          sum(measured.map((entry) => (entry.kind === kind ? (entry.balls ?? 0) : 0)));
        const { modules, spares } = plain;
        expect({
          spills: balls('spills'),
          stops: measured.filter(({ kind }) => kind === 'stops').length,
          leaks: balls('leaks'),
          dropped: balls('stops'),
          lost: balls('lost'),
          pulls: measured.filter(({ kind }) => kind === 'pulled').length,
          toppedUp: balls('topped_up'),
        }).toEqual({
          spills: sum([...modules.spillsWhileStopped, ...modules.spillsOnBacklog, ...modules.spillsOnInflow]),
          stops: sum([...modules.stops, ...spares.stops]),
          leaks: sum(modules.leaks),
          dropped: sum(modules.dropped),
          lost: plain.lost,
          pulls: sum(modules.pulls),
          toppedUp: plain.toppedUp,
        });
      }),
      RUNS,
    );
  });

  it('finds places stopped exactly while an onlooker sees them stopped', () => {
    fc.assert(
      fc.property(randomTable, (spec) => {
        const { seconds } = spec.show;
        const seen = new Float64Array(spec.modules.length);
        const was = new Uint8Array(spec.modules.length);
        let last = 0;
        simulate(spec, {
          seed: 4,
          observe: (view) => {
            for (let m = 0; m < view.modules; m++) {
              if (was[m] === 1) seen[m] = (seen[m] ?? 0) + view.now - last;
              was[m] = view.stopped(m) ? 1 : 0;
            }
            last = view.now;
          },
        });
        for (let m = 0; m < seen.length; m++) if (was[m] === 1) seen[m] = (seen[m] ?? 0) + seconds - last;
        const told = new Float64Array(spec.modules.length);
        for (const { module, from, to } of stopSpans(replay(spec, { seed: 4, replication: 0 }).log, seconds))
          told[module] = (told[module] ?? 0) + to - from;
        for (const [m, time] of told.entries()) expect(time).toBeCloseTo(seen[m] ?? NaN, 6);
      }),
      RUNS,
    );
  });

  it('misses no change by looking only where something can have changed', () => {
    fc.assert(
      fc.property(randomTable, (spec) => {
        // Only full looks: an event class that does not exist makes the recorder look everywhere.
        const everywhere = (view: LoopView): LoopView =>
          new Proxy(view, {
            get: (target, key) => (key === 'eventClass' ? -1 : Reflect.get(target, key, target)),
          });
        const window = { from: 10, to: 100 };
        const recorders = [new EpisodeRecorder(spec, window), new EpisodeRecorder(spec, window)] as const;
        simulate(spec, {
          seed: 5,
          observe: (view) => {
            recorders[0].observe(view);
            recorders[1].observe(everywhere(view));
          },
        });
        expect(recorders[0].finish()).toEqual(recorders[1].finish());
      }),
      // A far chute that wakes a waiting module is rare.
      { ...RUNS, numRuns: 2000 },
    );
  });

  it('tells at every moment of its window what could be seen at every place', () => {
    fc.assert(
      fc.property(randomTable, (spec) => {
        const window = { from: 25, to: 110 };
        const { timelines } = replay(spec, { seed: 6, replication: 0, windows: [window] });
        for (let m = 0; m < spec.modules.length; m++) {
          const episodes = (timelines[0]?.episodes ?? []).filter(({ module }) => module === m);
          expect([episodes[0]?.from, episodes.at(-1)?.to]).toEqual([window.from, window.to]);
          const next = (i: number): Episode | undefined => episodes[i + 1];
          for (const [i, { to, state }] of episodes.entries()) {
            expect(next(i)?.from ?? window.to).toBe(to);
            expect(next(i)?.state).not.toBe(state);
          }
        }
      }),
      RUNS,
    );
  });
});
