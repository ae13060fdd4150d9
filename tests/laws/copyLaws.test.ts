import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PreparedLoop, type ReplicationResult, simulate } from '../../packages/sim-core/src/model/index.js';
import { advance } from '../../packages/sim-core/src/model/advance.js';
import { copyState } from '../../packages/sim-core/src/model/copyState.js';
import { LoopState } from '../../packages/sim-core/src/model/loopState.js';
import { replicationResult } from '../../packages/sim-core/src/model/replicationResult.js';
import { setUp } from '../../packages/sim-core/src/model/setUp.js';
import { randomTable } from './randomTables.js';

const REPLICATION = 4;

function toTheEnd(s: LoopState): ReplicationResult {
  while (advance(s) >= 0);
  s.queue.now = s.loop.end;
  return replicationResult(s, REPLICATION, s.progress.events);
}

describe('the copy of a state', () => {
  it('goes on as the show it was taken from, whatever show it was before', () => {
    let lasted = 0;
    fc.assert(
      fc.property(randomTable, fc.nat(400), fc.nat(400), (spec, events, eventsOfOther) => {
        const loop = new PreparedLoop(spec);
        const begun = (replication: number, count: number): LoopState => {
          const s = new LoopState(loop, loop.plan, 1, replication, { inStep: [] });
          setUp(s);
          for (let i = 0; i < count; i++) if (advance(s) < 0) break;
          return s;
        };
        const show = begun(REPLICATION, events);
        const other = begun(9, eventsOfOther);
        copyState(show, other);
        if (show.queue.peek() < loop.end) lasted++;
        const unbroken = simulate(spec, { seed: 1, replication: REPLICATION });
        expect(toTheEnd(other)).toStrictEqual(unbroken);
        // The copy has left the show itself as it was.
        expect(toTheEnd(show)).toStrictEqual(unbroken);
      }),
      { seed: 1218, numRuns: 60 },
    );
    expect(lasted).toBeGreaterThan(30);
  });
});
