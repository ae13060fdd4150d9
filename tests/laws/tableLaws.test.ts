import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Incident,
  type LoopSpec,
  type LoopView,
  PLAIN_CHUTE,
  simulate,
} from '../../packages/sim-core/src/index.js';
import { insist } from './insist.js';
import { randomTable } from './randomTables.js';

const RUNS = { seed: 1905, numRuns: 250 };

/** Everything an onlooker sees, as text. */
function picture(view: LoopView): string {
  const places = Array.from({ length: view.modules }, (_, m) => [
    view.ballsIn('basket', m),
    view.ballsIn('mechanism', m),
    view.ballsIn('run_out', m),
    view.onChutes(m),
  ]);
  return JSON.stringify([places, view.floor, view.box, view.lost]);
}

describe('whatever hands and chutes do', () => {
  it('no ball appears or vanishes, after any event', () => {
    fc.assert(
      fc.property(randomTable, fc.nat(1000), (spec, replication) => {
        const total = putIn(spec);
        simulate(spec, {
          seed: 1,
          replication,
          audit: true,
          // The same count once more, from outside.
          observe: (view) => {
            let balls = view.floor + view.box + view.lost + view.left - view.entered;
            for (let m = 0; m < view.modules; m++)
              balls += view.level(m) + view.held(m) + view.onRunOut(m) + view.onChutes(m);
            insist(balls === total, () => `${balls} balls instead of ${total} at ${view.now}`);
          },
        });
      }),
      RUNS,
    );
  });

  it('a spare is never in two places', () => {
    let seen = 0;
    fc.assert(
      fc.property(randomTable, (spec) => {
        const swaps: string[] = [];
        const log = ({ kind, what = '' }: Incident): void => {
          if (kind === 'sets_out' && what.startsWith('swap it for ')) swaps.push(what.slice(12));
        };
        simulate(spec, {
          seed: 2,
          log,
          observe: (view) => {
            for (let m = 1; m < view.modules; m++)
              for (let other = 0; other < m; other++)
                insist(
                  view.inPlace(m) !== view.inPlace(other) || view.inPlace(m) === PLAIN_CHUTE,
                  () => `${view.inPlace(m)} is in two places at ${view.now}`,
                );
          },
        });
        seen += swaps.filter((id) => id !== PLAIN_CHUTE).length;
      }),
      RUNS,
    );
    expect(seen).toBeGreaterThan(100);
  });

  it('a spare is promised to one place at a time', () => {
    fc.assert(
      fc.property(randomTable, (spec) => {
        const taken = new Map<string, number>();
        simulate(spec, {
          seed: 2,
          log: ({ kind, module, what = '' }) => {
            if (kind === 'sets_out' && what.startsWith('swap it for ')) {
              const id = what.slice(12);
              if (id === PLAIN_CHUTE) return;
              expect(taken.has(id)).toBe(false);
              taken.set(id, module);
            } else if (kind === 'put_back' && what !== PLAIN_CHUTE) {
              expect(taken.get(what)).toBe(module);
              taken.delete(what);
            }
          },
        });
      }),
      RUNS,
    );
  });

  it('no minder has two jobs, no place two who clear or swap, and never more are busy than there are', () => {
    fc.assert(
      fc.property(randomTable, (spec) => {
        const most = Math.max(...spec.crew.duty.map(({ minders }) => minders));
        const hands = new Map<number, string>();
        simulate(spec, {
          seed: 3,
          log: ({ kind, minder, module, what, time }) => {
            if (minder === undefined) return;
            if (kind === 'sets_out') {
              // One at work may go over to swapping the module at which it is.
              const at = hands.get(minder);
              if (at !== undefined && at !== `clear ${module}`)
                throw new Error(`minder ${minder} has two jobs at ${time}: ${at}, ${what} ${module}`);
              if (what !== 'set the lever' && module >= 0)
                for (const [other, job] of hands)
                  if (other !== minder && !job.startsWith('set') && job.endsWith(` ${module}`))
                    throw new Error(`two minders at ${module}: ${job} and ${what}`);
              hands.set(minder, `${what} ${module}`);
            } else hands.delete(minder);
          },
          observe: (view) => {
            insist(view.busyMinders <= most, () => `${view.busyMinders} of ${most} minders are busy`);
            let busy = 0;
            for (let k = 0; k <= most; k++) if (view.minderAt(k) !== undefined) busy++;
            insist(
              busy === view.busyMinders,
              () => `${busy} minders have a job, ${view.busyMinders} are busy`,
            );
            for (const [k, job] of hands) {
              if (job.startsWith('set') || job.startsWith('sweep') || job.startsWith('top')) {
                if (view.minderAt(k) === undefined) hands.delete(k);
              } else
                insist(
                  job.endsWith(` ${view.minderAt(k)}`),
                  () => `minder ${k} is at ${view.minderAt(k)} to ${job}`,
                );
            }
          },
        });
      }),
      RUNS,
    );
  });

  it('closing and opening again changes nothing on the table', () => {
    fc.assert(
      fc.property(randomTable, (spec) => {
        const { sessions: _, ...whole } = spec.show;
        // Without mending, which goes on while closed, a show in sessions is the same as one without a break.
        const modules = spec.modules.map(({ pull, ...module }) => {
          const { mend: __, ...rule } = pull ?? { mend: undefined };
          return pull ? { ...module, pull: rule as typeof pull } : module;
        });
        const story = (show: LoopSpec['show']): string[] => {
          const pictures: string[] = [];
          simulate(
            { ...spec, modules, show },
            {
              seed: 4,
              observe: (view) => view.eventClass !== 7 && pictures.push(`${view.now} ${picture(view)}`),
            },
          );
          return pictures;
        };
        expect(
          story({
            ...whole,
            sessions: [
              { fromSeconds: 0, clockSeconds: 0 },
              { fromSeconds: 31, clockSeconds: 1000 },
            ],
          }),
        ).toEqual(story(whole));
      }),
      { ...RUNS, numRuns: 150 },
    );
  });

  it('a locked loop does not move by itself, and one in which all are held up and nothing is on its way is locked', () => {
    let locks = 0;
    let met = 0;
    fc.assert(
      fc.property(randomTable, (spec) => {
        fc.pre(spec.supply.kind === 'charge');
        let locked = '';
        let stuck = false;
        const last = spec.modules.length - 1;
        const { locked: said } = simulate(spec, {
          seed: 5,
          log: ({ kind }) => {
            if (kind === 'locked') locked = 'now';
          },
          observe: (view) => {
            if (locked === 'now') {
              locked = picture(view);
              locks++;
            }
            // Until hands or a stop come: classes of stops, hands and sweeps.
            else if (locked !== '' && (view.eventClass === 1 || view.eventClass === 2)) {
              throw new Error(`after the lock something moved by itself at ${view.now}`);
            } else if (locked !== '' && view.eventClass !== 7) locked = '';
            if (stuck) return;
            stuck = true;
            for (let m = 0; stuck && m <= last; m++) {
              const next = m === last ? 0 : m + 1;
              stuck =
                view.doing(m) === 'held_up' &&
                view.onChutes(m) === 0 &&
                view.level(next) === spec.modules[next]?.basket.capacity &&
                view.nextArrival(m) === Infinity;
            }
          },
        });
        if (stuck) met++;
        expect(stuck && said === null).toBe(false);
      }),
      { ...RUNS, numRuns: 3000 },
    );
    expect(locks).toBeGreaterThan(5);
    expect(met).toBeGreaterThan(3);
  });

  it('the same seed and replication give the same bytes, with and without an onlooker', () => {
    fc.assert(
      fc.property(randomTable, (spec) => {
        const once = JSON.stringify(simulate(spec, { seed: 5, replication: 3 }));
        const watched = simulate(spec, {
          seed: 5,
          replication: 3,
          observe: () => 0,
          log: () => 0,
          audit: true,
        });
        expect(JSON.stringify(watched)).toBe(once);
      }),
      { ...RUNS, numRuns: 150 },
    );
  });

  it('no show takes more events than its length allows', () => {
    fc.assert(
      fc.property(randomTable, (spec) => {
        // At most one cycle in 0.2 s at each module; a ball makes at most a few events for each.
        expect(simulate(spec, { seed: 6 }).events).toBeLessThan(200_000);
      }),
      RUNS,
    );
  });

  it('shares of the time lie between 0 and 1 and do not add to more', () => {
    fc.assert(
      fc.property(randomTable, (spec) => {
        const { modules, spares } = simulate(spec, { seed: 7 });
        for (let m = 0; m < spec.modules.length; m++) {
          const [stopped, heldUp, pulled] = [
            modules.stoppedShare,
            modules.heldUpShare,
            modules.pulledShare,
          ].map((column) => column[m] ?? NaN) as [number, number, number];
          for (const share of [stopped, heldUp, pulled]) expect(share).toBeGreaterThanOrEqual(0);
          expect(stopped + heldUp + pulled).toBeLessThanOrEqual(1 + 1e-9);
        }
        for (const share of spares.inUseShare) expect(share >= 0 && share <= 1 + 1e-9).toBe(true);
        // What is out of the loop has a spare or a chute in its place.
        const pulled = modules.pulledShare.reduce((sum, share) => sum + share, 0);
        const inUse = spares.inUseShare.reduce((sum, share) => sum + share, 0);
        expect(inUse).toBeLessThanOrEqual(pulled + 1e-9);
      }),
      RUNS,
    );
  });
});

function putIn({ supply, crew }: LoopSpec): number {
  const charge = supply.kind === 'charge' ? supply.placed.reduce((sum, balls) => sum + balls, 0) : 0;
  return charge + (crew.topUp?.box ?? 0);
}
