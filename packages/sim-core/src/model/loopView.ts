import { onFloor } from './basket.js';
import { CYCLING, HELD_UP, type LoopState, WAITING } from './loopState.js';

/** `starved`: waiting for balls, or in a cycle that holds none. `stopped` goes before everything else. */
export type Doing = 'running' | 'starved' | 'held_up' | 'stopped';

export { PLAIN_CHUTE } from './equipment.js';

/**
 * What an observer may look at after each event: the state of the table at this moment. The same object is handed over
 * every time; read from it, do not keep it.
 */
export interface LoopView {
  /** Seconds after the opening. */
  readonly now: number;
  /** Class of the event that has just happened: its rank among events of the same instant. */
  readonly eventClass: number;
  /** Module of the event, -1 when it belongs to none. */
  readonly module: number;
  readonly modules: number;
  /** Balls in the basket of module m. */
  level(m: number): number;
  /** Balls in the mechanism of module m. */
  held(m: number): number;
  /** Balls on the run-out behind module m. */
  onRunOut(m: number): number;
  stopped(m: number): boolean;
  /** What stands at place m is doing: see {@link Doing}. */
  doing(m: number): Doing;
  /** Id of what stands at place m: the module itself, a spare, or PLAIN_CHUTE. */
  inPlace(m: number): string;
  /** True when the lever of module m sends balls back. */
  leverSet(m: number): boolean;
  /** Balls on the overflow chute of place m and on the chute of its lever. */
  onChutes(m: number): number;
  /** When the next ball comes to the end of the run-out behind place m; Infinity when none is on its way. */
  nextArrival(m: number): number;
  readonly box: number;
  /** Places whose stop, swap or lever minder number k (from 1) is busy with, -1 for sweeping, -2 for topping up; undefined when free. */
  minderAt(k: number): number | undefined;
  /** Ball numbers in the basket, mechanism or run-out of module m, from first to last. */
  ballsIn(place: 'basket' | 'mechanism' | 'run_out', m: number): number[];
  readonly floor: number;
  readonly lost: number;
  /** Balls that came from the feed and went into the tray so far (0 in a loop). */
  readonly entered: number;
  readonly left: number;
  /** Balls that have passed the counter since measuring began. */
  readonly passes: number;
  readonly busyMinders: number;
  readonly waitingJobs: number;
}

/** The view of a state. */
export function viewOf(s: LoopState): LoopView & { module: number } {
  return {
    module: -1,
    modules: s.loop.modules,
    get now() {
      return s.queue.now;
    },
    get eventClass() {
      return s.queue.eventClass;
    },
    level: (m) => s.baskets.count[m],
    held: (m) => s.held.count[m],
    onRunOut: (m) => s.runOuts.count[m],
    stopped: (m) => s.stopped[m] === 1,
    ballsIn: (place, m) => {
      const lists = place === 'basket' ? s.baskets : place === 'mechanism' ? s.held : s.runOuts;
      return lists.toArray(m);
    },
    doing: (m) => doingAt(s, m),
    inPlace: (m) => s.loop.equipment.ids[s.inPlace[m]],
    leverSet: (m) => s.leverSet[m] === 1,
    onChutes: (m) =>
      [s.loop.overflowChute[m], s.loop.leverChute[m]].reduce(
        (sum, chute) => sum + (chute < 0 ? 0 : s.chutes.count[chute]),
        0,
      ),
    nextArrival: (m) => s.queue.timeOf(s.loop.timers.firstRunOut + m),
    get box() {
      return s.box;
    },
    minderAt: (k) => {
      const job = s.minderJob[k];
      return job === undefined || job < 0 ? job : job % s.loop.modules;
    },
    get floor() {
      return onFloor(s);
    },
    get lost() {
      return s.lost;
    },
    get entered() {
      return s.entered;
    },
    get left() {
      return s.left;
    },
    get passes() {
      return s.totals.passes;
    },
    get busyMinders() {
      return s.busy;
    },
    get waitingJobs() {
      return s.jobs.length;
    },
  };
}

function doingAt(s: LoopState, m: number): Doing {
  if (s.stopped[m] === 1) return 'stopped';
  if (s.phase[m] === HELD_UP) return 'held_up';
  return s.phase[m] === WAITING || (s.phase[m] === CYCLING && s.held.count[m] === 0) ? 'starved' : 'running';
}
