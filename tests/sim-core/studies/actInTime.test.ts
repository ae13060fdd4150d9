import { describe, expect, it } from 'vitest';
import { simulate } from '../../../packages/sim-core/src/model/index.js';
import type { LoopSpec, ModuleSpec, RemedySpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { showsHere } from '../../../packages/sim-core/src/experiments/index.js';
import { Study, whenItStops } from '../../../packages/sim-core/src/studies/index.js';
import { chancyLoop, SWEEP } from './stopLoops.js';

/*
 * By when hands must act is reckoned from shows in which nobody does. Here they do act, at that moment and a minute
 * later, in shows with other luck.
 */

const constant = (value: number) => ({ family: 'constant' as const, value });
const AT = 900;
const SHOWS = 400;

function withModule(spec: LoopSpec, id: string, change: (module: ModuleSpec) => ModuleSpec): LoopSpec {
  return { ...spec, modules: spec.modules.map((module) => (module.id === id ? change(module) : module)) };
}

function stopping(module: ModuleSpec, remedy: RemedySpec): ModuleSpec {
  const now = { id: 'now', trigger: { kind: 'at' as const, times: [AT] }, drops: 0, remedy };
  return { ...module, stops: [...module.stops, now] };
}

/** Share of shows in which balls fall at a place while it stands still from the moment on. */
function shareWithFalls(spec: LoopSpec, id: string): number {
  const place = spec.modules.findIndex((module) => module.id === id);
  let fell = 0;
  for (let replication = 0; replication < SHOWS; replication++) {
    let stands = false;
    let falls = false;
    simulate(
      { ...spec, show: { seconds: AT + 300, warmUpSeconds: 0 } },
      {
        seed: 77,
        replication,
        log: ({ time, kind, module }) => {
          if (module !== place || time < AT) return;
          if (kind === 'stops') stands = true;
          if (kind === 'pulled' || kind === 'cleared') stands = false;
          if (kind === 'spills' && stands) falls = true;
        },
      },
    );
    if (falls) fell++;
  }
  return fell / SHOWS;
}

/** Five in a hundred, and three standard errors of both samples. */
const AT_MOST = 0.05 + 3 * Math.sqrt((2 * 0.05 * 0.95) / SHOWS);

describe('acting at the latest moment', () => {
  const crew = { duty: [{ fromSeconds: 0, minders: 2 }], rule: 'first_come' as const, sweep: SWEEP };
  const base = chancyLoop({ crew });
  const latestOf = async (spec: LoopSpec, module: string, swapSeconds?: number): Promise<number> => {
    const study = new Study({ seed: 1, source: showsHere() });
    const { actions } = await whenItStops(study, spec, {
      module,
      replications: SHOWS,
      atSeconds: AT,
      stopSeconds: 280,
      watchSeconds: 20,
      ...(swapSeconds !== undefined && { swapSeconds }),
    });
    expect(actions).toHaveLength(1);
    return actions[0]?.latest?.mean ?? NaN;
  };

  it('keeps balls off the floor in 95 of 100 shows when a spare goes in, and a minute later does not', async () => {
    const swap = 20;
    const latest = await latestOf(base, 'last', swap);
    expect(latest).toBeGreaterThan(0);
    const [last] = base.modules.slice(-1);
    const begun = (after: number): LoopSpec => ({
      ...withModule(base, 'last', (module) => ({
        ...stopping(module, { kind: 'itself', time: constant(290) }),
        pull: { outlastsSeconds: after, spares: [0], swap: constant(swap) },
      })),
      spares: last === undefined ? [] : [{ ...last, id: 'spare' }],
    });
    const inTime = shareWithFalls(begun(latest), 'last');
    expect(inTime).toBeLessThanOrEqual(AT_MOST);
    // Not needlessly early either: it is not so that balls never fall.
    expect(inTime).toBeGreaterThan(0);
    expect(shareWithFalls(begun(latest + 60), 'last')).toBeGreaterThan(0.9);
  });

  it('holds for a lever, with what is still on the way', async () => {
    const lever = { watches: [4], takes: constant(15), time: constant(2) };
    const spec = withModule(base, 'slow', (module) => ({ ...module, lever }));
    const latest = await latestOf(spec, 'last');
    expect(latest).toBeGreaterThan(0);
    const begun = (after: number): LoopSpec =>
      withModule(spec, 'last', (module) =>
        stopping(module, { kind: 'crew', notice: constant(after), walk: constant(0), clear: constant(250) }),
      );
    const inTime = shareWithFalls(begun(latest), 'last');
    expect(inTime).toBeLessThanOrEqual(AT_MOST);
    expect(inTime).toBeGreaterThan(0);
    expect(shareWithFalls(begun(latest + 30), 'last')).toBeGreaterThan(0.5);
  });
});
