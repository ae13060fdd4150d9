import { describe, expect, it } from 'vitest';
import type { Episode, PlaceState } from '../../../packages/sim-core/src/replay/episode.js';
import { GrainMerger } from '../../../packages/sim-core/src/replay/grainMerger.js';
import { replay } from '../../../packages/sim-core/src/replay/index.js';
import { chain, lasting, module, plannedStop, seconds } from '../../build.js';

type Plain = [PlaceState, number, number];

/** What a merger of ten-second grains from 0 to 100 makes of what was seen. */
function merged(seen: readonly Plain[], also: readonly PlaceState[] = []): Plain[] {
  const merger = new GrainMerger(0, { from: 0, to: 100 }, 10, also);
  for (const [state, from, to] of seen) merger.add(state, from, to);
  return merger.finish().map(plain);
}

const plain = ({ state, from, to }: Episode): Plain => [state, from, to];

describe('what flickers', () => {
  it('is drawn as what lasted longest in each grain', () => {
    expect(
      merged([
        ['running', 0, 6],
        ['starved', 6, 14],
        ['running', 14, 20],
        ['starved', 20, 39],
        ['held_up', 39, 45],
        ['running', 45, 48],
        ['held_up', 48, 49],
        ['running', 49, 100],
      ]),
    ).toEqual([
      // 6 s against 4 s; 6 s against 4 s; starved; 9 s against 1 s; held up 6 s against 4 s.
      ['running', 0, 20],
      ['starved', 20, 40],
      ['held_up', 40, 50],
      ['running', 50, 100],
    ]);
  });

  it('leaves stops and pulls as they are, however short, and begins anew behind them', () => {
    expect(
      merged([
        ['running', 0, 12],
        ['stopped', 12, 12.5],
        ['starved', 12.5, 19],
        ['running', 19, 30],
        ['pulled', 30, 57],
        ['running', 57, 100],
      ]),
    ).toEqual([
      ['running', 0, 12],
      ['stopped', 12, 12.5],
      ['starved', 12.5, 20],
      ['running', 20, 30],
      ['pulled', 30, 57],
      ['running', 57, 100],
    ]);
  });

  it('holds stops too when told so', () => {
    expect(
      merged(
        [
          ['running', 0, 19],
          ['stopped', 19, 27],
          ['running', 27, 100],
        ],
        ['stopped'],
      ),
    ).toEqual([
      ['running', 0, 20],
      ['stopped', 20, 30],
      ['running', 30, 100],
    ]);
  });

  it('is cut off where the window begins and ends', () => {
    const merger = new GrainMerger(0, { from: 5, to: 25 }, 10);
    merger.add('running', 0, 16);
    merger.add('stopped', 16, 40);
    expect(merger.finish().map(plain)).toEqual([
      ['running', 5, 16],
      ['stopped', 16, 25],
    ]);
  });

  it('is merged the same in grains that binary numbers cannot hold', () => {
    const merger = new GrainMerger(0, { from: 0.1, to: 0.7 }, 0.1);
    for (let i = 0; i < 60; i++)
      merger.add(i % 10 < 6 ? 'running' : 'starved', i / 100 + 0.1, i / 100 + 0.11);
    expect(merger.finish().map(plain)).toEqual([['running', 0.1, 0.7]]);
  });
});

describe('the episodes of a show', () => {
  it('are those worked out by hand', () => {
    // One ball every 10 s from 0 on; each module takes 4 s and passes it on at once. The second is stopped from 12 to 27:
    // its ball of the second 14 waits, and from 27 on it works off two without a pause: 27-31, 31-35, then 35 on as before.
    const spec = chain(
      [
        module('first', { cycle: seconds(4) }),
        module('second', { cycle: seconds(4), stops: [plannedStop([12], 15)] }),
      ],
      10,
      { show: lasting(45) },
    );
    const { timelines, log } = replay(spec, {
      seed: 1,
      replication: 0,
      windows: [{ from: 0, to: 45 }],
    });
    const of = (m: number): Plain[] =>
      (timelines[0]?.episodes ?? []).filter((episode) => episode.module === m).map(plain);
    expect(of(0)).toEqual([
      ['running', 0, 4],
      ['starved', 4, 10],
      ['running', 10, 14],
      ['starved', 14, 20],
      ['running', 20, 24],
      ['starved', 24, 30],
      ['running', 30, 34],
      ['starved', 34, 40],
      ['running', 40, 44],
      ['starved', 44, 45],
    ]);
    expect(of(1)).toEqual([
      ['starved', 0, 4],
      ['running', 4, 8],
      ['starved', 8, 12],
      ['stopped', 12, 27],
      // 14, 24 and 34: balls of the first; the second has worked off two when the third comes, at 35.
      ['running', 27, 39],
      ['starved', 39, 44],
      ['running', 44, 45],
    ]);
    expect(log.map(({ time, kind }) => [time, kind])).toEqual([
      [0, 'duty'],
      [12, 'stops'],
      [27, 'freed_itself'],
    ]);
  });

  it('say when a module is pulled and something else stands in its place', () => {
    // Stopped at 20 for good; wanted out after 10 s, noticed at 40, swapped in 5 s, mended in 30 s, put back in 5 s.
    const spec = chain(
      [
        module('old', {
          cycle: seconds(1),
          stops: [
            plannedStop([20], 1, {
              remedy: { kind: 'crew', notice: seconds(20), walk: seconds(5), clear: seconds(500) },
            }),
          ],
          pull: { outlastsSeconds: 10, spares: [0], swap: seconds(5), mend: seconds(30) },
        }),
      ],
      2,
      { show: lasting(100), spares: [module('new', { cycle: seconds(1) })] },
    );
    const window = { from: 0, to: 100 };
    const { timelines } = replay(spec, { seed: 1, replication: 0, windows: [window] });
    const rare = (timelines[0]?.episodes ?? []).filter(
      ({ state }) => state === 'stopped' || state === 'pulled',
    );
    // Out at 45; ready at 75; back at 80.
    expect(rare.map(plain)).toEqual([
      ['stopped', 20, 45],
      ['pulled', 45, 75],
      ['stopped', 75, 80],
    ]);
  });
});
