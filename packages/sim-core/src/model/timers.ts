import type { ModuleSpec } from './spec/index.js';
import { CLOCK, type StopTable } from './stopTable.js';

/** What a timer is for; those of a place are numbered from that place on. */
export const ROLES = {
  mechanism: 0,
  runOut: 1,
  chute: 2,
  outlasts: 3,
  mended: 4,
  lever: 5,
  clock: 6,
  planned: 7,
  single: 8,
} as const;

/**
 * The timers of a loop, by number: one for each mechanism (cycle end, stop, notice, clearing, swap), one for each run-out,
 * then chutes and what only some modules have, then the single ones.
 */
export class Timers {
  /** By timer: what it is for, the place (-1 for none) or row it belongs to, and its position in the queue. */
  readonly role: number[] = [];
  readonly of: number[] = [];
  readonly position: number[] = [];

  readonly firstRunOut: number;
  readonly firstChute: number;
  /** By place; -1 for none. */
  readonly outlasts: Int32Array;
  readonly mended: Int32Array;
  readonly lever: Int32Array;
  /** By row of the stop table; -1 for causes that have no clock. */
  readonly clock: Int32Array;
  readonly feed: number;
  readonly duty: number;
  readonly sweep: number;
  readonly sweepDone: number;
  readonly topUp: number;
  readonly sample: number;
  readonly warmUp: number;
  readonly firstPlanned: number;

  /** @param chutePlaces place of each chute */
  constructor(modules: readonly ModuleSpec[], chutePlaces: readonly number[], stops: StopTable) {
    const n = modules.length;
    const timer = (role: number, of: number, position: number): number => {
      this.role.push(role);
      this.of.push(of);
      return this.position.push(position) - 1;
    };
    const single = (position: number): number => timer(ROLES.single, -1, position);
    const some = (role: number, has: (module: ModuleSpec) => boolean): Int32Array =>
      Int32Array.from(modules, (module, m) => (has(module) ? timer(role, m, m + 1) : -1));
    for (let m = 0; m < n; m++) timer(ROLES.mechanism, m, m + 1);
    this.firstRunOut = n;
    for (let m = 0; m < n; m++) timer(ROLES.runOut, m, m + 1);
    this.firstChute = 2 * n;
    for (const place of chutePlaces) timer(ROLES.chute, place, place + 1);
    this.outlasts = some(ROLES.outlasts, ({ pull }) => pull?.outlastsSeconds !== undefined);
    this.mended = some(ROLES.mended, ({ pull }) => pull?.mend !== undefined);
    this.lever = some(ROLES.lever, ({ lever }) => lever !== undefined);
    this.feed = single(0);
    this.duty = single(n + 1);
    this.sweepDone = single(n + 1);
    this.sweep = single(n + 1);
    this.topUp = single(n + 1);
    this.sample = single(n + 1);
    this.warmUp = single(n + 1);
    // A spare's causes have timers too; where it stands is known only when they strike.
    this.clock = Int32Array.from(stops.kind, (kind, row) =>
      kind === CLOCK ? timer(ROLES.clock, row, stops.owner[row] + 1) : -1,
    );
    this.firstPlanned = this.role.length;
    for (const { owner } of stops.planned) timer(ROLES.planned, owner, owner + 1);
  }
}
